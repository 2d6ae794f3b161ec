package ruleset

import (
	"io/fs"
	"path"
	"sort"

	"potwright/internal/diagnostic"
)

// eachFile opens the YAML files of a folder in order of name and hands each top
// value to read; it gathers the faults of all of them.
func eachFile(fsys fs.FS, dir string, read func(top value)) diagnostic.Faults {
	names, err := fs.Glob(fsys, path.Join(dir, "*.yaml"))
	if err != nil {
		return diagnostic.Faults{{File: dir, Problem: "can't be listed: " + err.Error()}}
	}
	sort.Strings(names)
	var all diagnostic.Faults
	for _, name := range names {
		data, err := fs.ReadFile(fsys, name)
		if err != nil {
			all = append(all, diagnostic.Fault{File: name, Problem: "can't be read: " + err.Error()})
			continue
		}
		src, top := open(name, data)
		if !top.absent() {
			read(top)
		}
		all = append(all, src.faults...)
	}
	return all
}
