package cli

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"log/slog"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"

	"potwright/internal/demo"
	"potwright/internal/kitchen"
	"potwright/internal/server"
	"potwright/internal/sqlite"
)

// defaultAddress is loopback only: nobody else on the network can connect.
const defaultAddress = "127.0.0.1:8097"

// What is kept at hand of saved versions: analyses of some 100 kB and verdicts of
// some 1 kB.
const (
	keptAnalyses = 200
	keptVerdicts = 20_000
)

func serve(r *run) (int, error) {
	f := flag.NewFlagSet("potwright serve", flag.ContinueOnError)
	f.SetOutput(r.errs)
	address := f.String("address", defaultAddress, "host:port to listen on, this computer only")
	data := f.String("data", "", "the file that keeps households and recipes")
	invented := f.Bool("demo", false, "show an invented household, forgotten at the end")
	keep := f.Int("keep-backups", sqlite.DefaultKeep, "how many daily copies of the data file to keep beside it; 0 takes none")
	r.rulesFlag(f)
	r.foodsFlag(f)
	if err := f.Parse(r.args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return exitDone, err
		}
		return exitInput, inputError{err}
	}
	if len(f.Args()) > 0 {
		return exitInput, badInput("serve takes no file %q; expected --data FILE", f.Arg(0))
	}
	if *data == "" && !*invented {
		return exitInput, badInput("nowhere to keep anything; expected --data FILE, or --demo to look around")
	}
	if *keep < 0 {
		return exitInput, badInput("--keep-backups %d is less than nothing; expected 0 or more", *keep)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	return exitDone, r.serveUntil(ctx, served{*address, *data, *invented, *keep})
}

// rulesBeside is the folder of own rules beside the file that keeps everything,
// "" where nothing is kept.
func rulesBeside(data string) string {
	if data == "" {
		return ""
	}
	return filepath.Join(filepath.Dir(data), "rules")
}

// served is what serve was asked for.
type served struct {
	address, data string
	invented      bool
	keep          int // daily backups
}

func (r *run) serveUntil(ctx context.Context, o served) (err error) {
	k, book, err := r.openWith(rulesBeside(o.data), foodsBeside(o.data))
	if err != nil {
		return err
	}
	if o.data == "" {
		dir, err := os.MkdirTemp("", "potwright-demo-")
		if err != nil {
			return fmt.Errorf("make a folder for the demo: %w", err)
		}
		defer os.RemoveAll(dir)
		o.data, o.keep = filepath.Join(dir, "demo.db"), 0
	}
	store, err := sqlite.Open(o.data, k.Now)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, store.Close()) }()
	k.Store, k.Memory = store, kitchen.NewMemory(keptAnalyses, keptVerdicts)
	if o.invented {
		if err := demo.Fill(ctx, k); err != nil && !errors.Is(err, kitchen.ErrTaken) {
			return err
		}
	}
	log := slog.New(slog.NewTextHandler(r.errs, nil))
	defer backUpDaily(ctx, store, o.keep, log)()
	handler, err := server.New(server.Config{Kitchen: k, Store: store, Foods: k.Table, Needs: k.Needs, Rulebook: book, Log: log,
		Demo: func(ctx context.Context) error { return demo.Fill(ctx, k) }})
	if err != nil {
		return err
	}
	fmt.Fprintf(r.out, "Potwright is at http://%s (Ctrl+C ends it). %s\n", o.address, kitchen.Caution)
	return server.Run(ctx, o.address, handler, log)
}
