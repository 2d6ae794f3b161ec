package cli

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"log/slog"
	"strings"
	"sync"
	"time"

	"potwright/internal/store/postgres"
	"potwright/internal/store/sqlite"
)

// parseData reads the flags of a command on the data itself: --data, which is
// required here or in the environment, and exactly one further file, described by what.
func (r *run) parseData(name, what string) (data, file string, err error) {
	file, err = r.parseOne(name, func(f *flag.FlagSet) { dataFlag(f, &data) },
		func() (err error) {
			if data, err = dataNamed(data); err == nil && data == "" {
				err = badInput("no data file; expected potwright %s --data FILE %s", name, what)
			}
			return err
		}, "--data FILE "+what)
	return data, file, err
}

// parseOne reads the flags of a command that takes exactly one file, and looks at
// them with check; usage is what is expected behind the command's name.
func (r *run) parseOne(name string, flags func(*flag.FlagSet), check func() error, usage string) (file string, err error) {
	f := flag.NewFlagSet("potwright "+name, flag.ContinueOnError)
	flags(f)
	if err := r.parseFlags(f, r.args); err != nil {
		return "", err
	}
	if err := check(); err != nil {
		return "", err
	}
	if f.NArg() != 1 {
		return "", badInput("%s given; expected potwright %s %s", count(f.NArg(), "file"), name, usage)
	}
	return f.Arg(0), nil
}

func backup(r *run) (int, error) {
	if len(r.args) > 0 && r.args[0] == "check" {
		return r.checkBackup(r.args[1:])
	}
	data, to, err := r.parseData("backup", "COPY")
	if err != nil {
		return exitDone, err
	}
	store, err := openData(data)
	if err != nil {
		return exitDone, err
	}
	file, ok := store.(*sqlite.Store)
	if !ok {
		return exitDone, errors.Join(badInput("a PostgreSQL database is backed up by its server's own programs (pg_dump); potwright export writes an archive that potwright import takes in anywhere"), store.Close())
	}
	err = errors.Join(file.Backup(context.Background(), to), file.Close())
	if errors.Is(err, fs.ErrExist) {
		return exitDone, badInput("%q is there already and was left as it is; expected the name of a new file", to)
	}
	if err != nil {
		return exitDone, err
	}
	return r.checkBackup([]string{to})
}

// checkBackup reads data files or backups through and says what they hold.
func (r *run) checkBackup(files []string) (int, error) {
	if len(files) == 0 {
		return exitDone, badInput("no file to check; expected potwright backup check FILE")
	}
	for _, name := range files {
		c, err := sqlite.Verify(context.Background(), name)
		if errors.Is(err, fs.ErrNotExist) {
			return exitDone, badInput("there is no file %q", name)
		}
		if err != nil {
			return exitDone, err
		}
		fmt.Fprintf(r.out, "%s is whole: %s, %s, %s (schema %d)\n", name, count(c.Households, "household"), count(c.Recipes, "recipe"), count(c.Versions, "version"), c.Schema)
	}
	return exitDone, nil
}

func restore(r *run) (int, error) {
	data, from, err := r.parseData("restore", "BACKUP")
	if err != nil {
		return exitDone, err
	}
	if postgres.IsURL(data) {
		return exitDone, badInput("a PostgreSQL database is restored by its server's own programs (pg_restore); potwright import takes in what potwright export wrote")
	}
	aside, err := sqlite.Restore(context.Background(), from, data, time.Now())
	if errors.Is(err, fs.ErrNotExist) {
		return exitDone, badInput("there is no file %q, or no folder for %q; nothing was changed", from, data)
	}
	if err != nil {
		return exitDone, err
	}
	fmt.Fprintf(r.out, "%s is restored from %s\n", data, from)
	if aside != "" {
		fmt.Fprintf(r.out, "what was there before is kept as %s\n", aside)
	}
	return exitDone, nil
}

// wayBack is what to do about a damaged data file.
func wayBack(d *sqlite.DamagedError) string {
	if d.Backup == "" {
		return "hint: there is no whole backup beside it; restore one you keep elsewhere: potwright restore --data " + quoted(d.Path) + " BACKUP"
	}
	return "hint: the last good backup is " + d.Backup + "; bring it back with\n  potwright restore --data " + quoted(d.Path) + " " + quoted(d.Backup)
}

// quoted writes a file name as a shell takes it.
func quoted(name string) string {
	const plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789/._-+:\\"
	if name != "" && strings.Trim(name, plain) == "" {
		return name
	}
	return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'"
}

// backupLook is how often it is looked whether a backup is due.
const backupLook = time.Hour

// backUpDaily takes a backup now where one is due, and looks again every hour
// until ctx ends. It gives the function that waits for the end.
func backUpDaily(ctx context.Context, store *sqlite.Store, keep int, log *slog.Logger) (wait func()) {
	look := func() {
		path, err := store.KeepBackups(ctx, keep)
		switch {
		case err != nil && ctx.Err() == nil:
			log.ErrorContext(ctx, "no backup could be taken", "error", err)
		case path != "":
			log.InfoContext(ctx, "backup taken", "file", path)
		}
	}
	ctx, stop := context.WithCancel(ctx)
	var running sync.WaitGroup
	running.Go(func() {
		tick := time.NewTicker(backupLook)
		defer tick.Stop()
		for look(); ; look() {
			select {
			case <-ctx.Done():
				return
			case <-tick.C:
			}
		}
	})
	return func() { stop(); running.Wait() }
}
