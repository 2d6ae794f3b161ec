package ruleset

import (
	"fmt"
	"io/fs"
	"path"
	"runtime"
	"sort"
	"strings"
	"sync"

	"potwright/internal/cooking"
	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
)

// folders are those of a folder of rules that are read.
func folders() []string {
	return []string{"swap", "need", "balance", "factor", "taste", "keeping"}
}

// Folder is one place that rules are read from.
type Folder struct {
	// Name is how people know it; "" for the rules that are built in.
	Name string
	FS   fs.FS
}

// folderReader reads every file of a folder, whatever sort of rules it holds.
type folderReader struct {
	swaps   *swapReader
	needs   *needReader
	factors *factorReader
	tastes  *tasteReader
	keeping *keepingReader
	origins map[kitchen.RuleKey]kitchen.RuleOrigin
	faults  diagnostic.Faults
	name    string // of the folder
	files   int
}

// newFolderReader reads a folder that must make a rulebook by itself, or with a
// base one that adds to it.
func newFolderReader(v *vocabulary, base *contents, table cooking.Retentions) *folderReader {
	needs := &needReader{vocabulary: v}
	r := &folderReader{
		swaps:   &swapReader{vocabulary: v, seen: map[string]place{}, examples: map[string]value{}},
		needs:   needs,
		factors: &factorReader{vocabulary: v, seen: map[string]bool{}},
		tastes:  &tasteReader{},
		keeping: &keepingReader{needReader: needs, seen: map[string]bool{}},
		origins: map[kitchen.RuleKey]kitchen.RuleOrigin{},
	}
	if base != nil {
		needs.base = &base.needs
		for _, x := range base.advice {
			r.keeping.inForce = append(r.keeping.inForce, x.ID)
		}
	}
	r.factors.out.Retentions = table
	return r
}

// sortsOfFile are the sorts of files: the folder they stand in, one of the keys
// that each has, and what reads it.
func (r *folderReader) sortsOfFile() []sortOfFile {
	return []sortOfFile{
		{"swap", []string{"rules", "refuse"}, r.swaps.file},
		{"balance", []string{"function", "brings"}, r.swaps.balanceFile},
		{"need", []string{"avoidances"}, r.needs.avoidFile},
		{"need", []string{"levels", "features", "smooth", "thin"}, r.needs.textureFile},
		{"need", []string{"actions", "vessels", "boils"}, r.needs.handsFile},
		{"need", []string{"limits", "plans"}, r.needs.presetFile},
		{"need", []string{"cautions"}, r.needs.cautionFile},
		{"factor", []string{"retention", "yields", "alcohol", "poured", "evaporation"}, r.factors.file},
		{"taste", []string{"fall"}, r.tastes.file},
		{"keeping", []string{"advice"}, r.keeping.file},
	}
}

type sortOfFile struct {
	folder string
	keys   []string
	read   func(top value)
}

// all reads the files at the top of a folder and in the folders of it.
func (r *folderReader) all(f Folder) {
	r.name = f.Name
	r.faults = append(r.faults, misplaced(f.FS, folders())...)
	var files []*file
	for _, dir := range append([]string{"."}, folders()...) {
		names, err := fs.Glob(f.FS, path.Join(dir, "*.yaml"))
		if err != nil {
			r.faults = append(r.faults, diagnostic.Fault{File: dir, Problem: "can't be listed: " + err.Error()})
			continue
		}
		sort.Strings(names)
		for _, name := range names {
			files = append(files, &file{dir: dir, name: name})
		}
	}
	r.files = len(files)
	openAll(f.FS, files)
	for _, x := range files {
		r.file(f, x)
	}
	r.faults = append(r.faults, r.keeping.unknownInstead()...)
	for i := range r.faults {
		r.faults[i].File = path.Join(f.Name, r.faults[i].File)
	}
}

// file is one file of a folder, opened as YAML.
type file struct {
	dir, name string
	src       *source
	top       value
}

// openAll opens files side by side, as many as there are processors: most of the
// time goes into reading YAML.
func openAll(fsys fs.FS, files []*file) {
	next := make(chan *file)
	var done sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		done.Go(func() {
			for x := range next {
				x.open(fsys)
			}
		})
	}
	for _, x := range files {
		next <- x
	}
	close(next)
	done.Wait()
}

func (x *file) open(fsys fs.FS) {
	data, tooLarge, err := readBounded(fsys, x.name)
	if err == nil && !tooLarge {
		x.src, x.top = open(x.name, data)
		return
	}
	x.src = &source{file: x.name, seen: map[diagnostic.Fault]bool{}}
	if tooLarge {
		x.src.add(diagnostic.Fault{Problem: "the file is too large", Expected: fmt.Sprintf("at most %d bytes", maxBytes)})
		return
	}
	x.src.add(diagnostic.Fault{Problem: "can't be read: " + err.Error()})
}

// file reads what an opened file holds.
func (r *folderReader) file(f Folder, x *file) {
	if !x.top.absent() {
		r.read(x.dir, x.top)
	}
	r.faults = append(r.faults, x.src.faults...)
	for _, e := range x.src.entries {
		r.origins[e.RuleKey] = kitchen.RuleOrigin{Folder: f.Name, File: x.name, Line: e.line, Theme: x.src.theme}
	}
}

// readBounded reads a file, but no more of it than a rule file may hold.
func readBounded(fsys fs.FS, name string) (data []byte, tooLarge bool, err error) {
	info, err := fs.Stat(fsys, name)
	if err != nil {
		return nil, false, err
	}
	switch {
	case info.IsDir():
		return nil, false, fmt.Errorf("it is a folder")
	case info.Size() > maxBytes:
		return nil, true, nil
	}
	data, err = fs.ReadFile(fsys, name)
	return data, false, err
}

// read hands a file to the reader of its sort, which its keys tell. One that has
// none of them is read as the only sort of its folder, where there is one.
func (r *folderReader) read(dir string, top value) {
	var keys []string
	var only *sortOfFile
	sorts := r.sortsOfFile()
	for i, s := range sorts {
		if dir != "." && s.folder != dir {
			continue
		}
		for _, k := range s.keys {
			if hasKey(top, k) {
				s.read(top)
				return
			}
		}
		if only = nil; len(keys) == 0 {
			only = &sorts[i]
		}
		keys = append(keys, s.keys...)
	}
	if only != nil {
		only.read(top)
		return
	}
	m := top.mapping()
	for _, k := range m.order() {
		if near := diagnostic.Nearest(k, keys); near != "" {
			m.get(k).faultWord("key", k, keys)
			return
		}
	}
	if !m.absent() && len(top.src.faults) == 0 {
		top.fault("nothing tells what sort of rules these are", "one of the keys "+strings.Join(keys, ", "))
	}
}
