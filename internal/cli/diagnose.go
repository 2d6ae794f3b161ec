package cli

import (
	"cmp"
	"context"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"potwright/internal/about"
	"potwright/internal/store"
	"potwright/internal/store/postgres"
	"potwright/internal/store/sqlite"
)

// diagnose prints what someone who helps would need to know, and writes just that to
// a file where asked: versions, counts and settings; no name, recipe or limit.
func diagnose(r *run) (int, error) {
	f := flag.NewFlagSet("potwright diagnose", flag.ContinueOnError)
	data := ""
	dataFlag(f, &data)
	to := f.String("to", "", "a new file to write what is printed to; nothing is written without")
	if err := r.parseFlags(f, r.args); err != nil {
		return exitDone, err
	}
	data, err := dataNamed(data)
	if err != nil {
		return exitInput, err
	}
	if data == "" || f.NArg() > 0 {
		return exitInput, badInput("expected potwright diagnose --data FILE [--to FILE]")
	}
	text, unusable := diagnosis(context.Background(), data)
	if text == "" {
		return exitFailed, unusable
	}
	status := exitDone
	if unusable != nil {
		status = exitFailed
	}
	fmt.Fprint(r.out, text)
	if *to == "" {
		fmt.Fprintln(r.out, "\nNothing was written; --to FILE writes the lines above and nothing else.")
		return status, unusable
	}
	out, err := os.OpenFile(*to, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return exitInput, badInput("%q is there already and was left as it is; expected the name of a new file", *to)
	}
	if err != nil {
		return exitFailed, err
	}
	if _, err = out.WriteString(text); err != nil {
		status = exitFailed
	}
	return status, errors.Join(unusable, err, out.Close())
}

// diagnosis is the text. Where the data can't be used it says so, with the error beside
// it; it is "" where there are none at the place given.
func diagnosis(ctx context.Context, data string) (string, error) {
	newest, err := sqlite.NewestSchema()
	if err != nil {
		return "", err
	}
	whole, what, unusable := condition(ctx, data)
	if errors.As(unusable, new(inputError)) {
		return "", unusable
	}
	var b strings.Builder
	build, _ := about.ReadBuild()
	fmt.Fprintf(&b, "program: %s, revision %s, %s\n", cmp.Or(build.Version, "version unknown"), cmp.Or(build.Revision, "unknown"), build.Go)
	fmt.Fprintf(&b, "system: %s/%s, %s\n", runtime.GOOS, runtime.GOARCH, count(runtime.NumCPU(), "processor"))
	if unusable != nil {
		fmt.Fprintf(&b, "%s; this program knows schemas up to %d\n", faultOf(data, unusable), newest)
		return b.String() + settingsOf(data), unusable
	}
	fmt.Fprintf(&b, "%s, schema %d (this program knows %d)\n", what, whole.Schema, newest)
	fmt.Fprintf(&b, "holds: %s, %s, %s\n", count(whole.Households, "household"), count(whole.Recipes, "recipe"), count(whole.Versions, "version"))
	if whole.Schema == newest {
		in, err := entrances(ctx, data)
		if err != nil {
			return "", err
		}
		fmt.Fprintln(&b, in)
	}
	return b.String() + settingsOf(data), nil
}

// faultOf is what is wrong with the data, without where they are: a path and the address
// of a database have names in them.
func faultOf(data string, err error) string {
	if postgres.IsURL(data) {
		return "database: PostgreSQL, can't be used"
	}
	words := err.Error()
	if full, absErr := filepath.Abs(data); absErr == nil {
		words = strings.ReplaceAll(words, full, "FILE")
	}
	return "data file: " + strings.ReplaceAll(words, data, "FILE")
}

func settingsOf(data string) string {
	return fmt.Sprintf("settings: own rules beside the data %s, by POTWRIGHT_RULES %s; imported foods beside the data %s; a backup beside the data %s\n",
		yes(there(rulesBeside(data))), yes(os.Getenv("POTWRIGHT_RULES") != ""), yes(there(foodsBeside(data))), yes(there(sqlite.BackupFolder(data))))
}

// condition looks the data through and says what keeps it.
func condition(ctx context.Context, data string) (c store.Condition, what string, err error) {
	if postgres.IsURL(data) {
		c, err = postgres.Look(ctx, data)
		return c, "database: PostgreSQL " + c.Server, err
	}
	c, err = sqlite.Verify(ctx, data)
	if errors.Is(err, fs.ErrNotExist) {
		return c, "", badInput("there is no data file at the path given with --data")
	}
	if err != nil {
		return c, "", err
	}
	info, err := os.Stat(data)
	if err != nil {
		return c, "", err
	}
	return c, fmt.Sprintf("data file: SQLite, whole, %d bytes", info.Size()), nil
}

// entrances counts who may come in.
func entrances(ctx context.Context, data string) (string, error) {
	store, err := openStore(data, time.Now)
	if err != nil {
		return "", err
	}
	defer store.Close()
	households, err := store.ListHouseholds(ctx)
	if err != nil {
		return "", err
	}
	accounts, tokens := 0, 0
	for _, h := range households {
		as, err := store.ListAccounts(ctx, h.ID)
		if err != nil {
			return "", err
		}
		ts, err := store.ListTokens(ctx, h.ID)
		if err != nil {
			return "", err
		}
		accounts, tokens = accounts+len(as), tokens+len(ts)
	}
	return fmt.Sprintf("access: %s, %s; sign-in asked for %s", count(accounts, "account"), count(tokens, "token"), yes(accounts > 0)), nil
}

func there(path string) bool {
	_, err := os.Stat(path)
	return path != "" && err == nil
}

func yes(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}
