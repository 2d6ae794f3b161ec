package cli

import (
	"cmp"
	"context"
	"errors"
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"potwright/internal/access"
	"potwright/internal/kitchen"
	"potwright/internal/store/postgres"
	"potwright/internal/store/sqlite"
)

// dataVariable names the data where --data does not, so that a URL with a password
// need not stand on the command line, which other users of a computer can see.
const dataVariable = "POTWRIGHT_DATA"

// dataFlag adds --data; its default does not stand there, since help prints it.
func dataFlag(f *flag.FlagSet, to *string) {
	f.StringVar(to, "data", "", "the file that keeps households and recipes, or a PostgreSQL database (postgres://USER@HOST/DATABASE); "+dataVariable+" where this is not given")
}

// dataNamed is what the flag or the environment names, "" where neither does.
func dataNamed(flagged string) (string, error) {
	return checkData(cmp.Or(flagged, os.Getenv(dataVariable)))
}

// checkData refuses what looks like a URL and is none that is known, and does not
// repeat it.
func checkData(data string) (string, error) {
	if strings.Contains(data, "://") && !postgres.IsURL(data) {
		return "", badInput("the data is named by a URL of another kind; expected a file, or postgres://USER@HOST/DATABASE")
	}
	return data, nil
}

// database is an open store: a *sqlite.Store where it is a file.
type database interface {
	kitchen.Store
	access.Store
	Close() error
}

// openStore opens what data names, and makes it where nothing is there.
func openStore(data string, now func() time.Time) (database, error) {
	if postgres.IsURL(data) {
		return postgres.Open(data, now)
	}
	return sqlite.Open(data, now)
}

// openData opens what must be there already.
func openData(data string) (database, error) {
	ctx := context.Background()
	if postgres.IsURL(data) {
		if _, err := postgres.Look(ctx, data); err != nil {
			return nil, err
		}
	} else if _, err := os.Stat(data); errors.Is(err, fs.ErrNotExist) && sqlite.LastGoodBackup(ctx, data) == "" {
		return nil, badInput("there is no data file %q; a new one is made by potwright serve --data FILE", data)
	}
	return openStore(data, time.Now)
}

// beside is a folder beside the file that keeps everything, "" where there is none.
func beside(data, folder string) string {
	if data == "" || postgres.IsURL(data) {
		return ""
	}
	return filepath.Join(filepath.Dir(data), folder)
}

// rulesBeside is the folder of own rules.
func rulesBeside(data string) string { return beside(data, "rules") }

// foodsBeside is the folder of imported foods.
func foodsBeside(data string) string { return beside(data, "foods") }
