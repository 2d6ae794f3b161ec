package cli

import (
	"bufio"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"strings"
	"time"

	"potwright/internal/access"
	"potwright/internal/household"
)

// passphrase sets a keeper's passphrase: it is read from the terminal or standard
// input and never from a flag, which other programs and the shell's history see.
func passphrase(r *run) (int, error) {
	f := flag.NewFlagSet("potwright passphrase set", flag.ContinueOnError)
	data := ""
	dataFlag(f, &data)
	house := f.String("household", "", "the household's name, made where there is none of it; not needed where there is just one")
	name := f.String("name", "keeper", "the name to sign in with")
	args := r.args
	if len(args) > 0 && args[0] == "set" {
		args = args[1:]
	} else if len(args) > 0 && !strings.HasPrefix(args[0], "-") {
		return exitInput, badInput("passphrase %q is not known; expected potwright passphrase set --data FILE", args[0])
	}
	if err := r.parseFlags(f, args); err != nil {
		return exitDone, err
	}
	if f.NArg() > 0 {
		return exitInput, badInput("a passphrase is not given as an argument, where others can see it: it is asked for, or read from standard input")
	}
	data, err := dataNamed(data)
	if err != nil {
		return exitInput, err
	}
	if data == "" {
		return exitInput, badInput("no data file; expected potwright passphrase set --data FILE")
	}
	typed, err := r.readPassphrase()
	if err != nil {
		return exitInput, err
	}
	if err := access.CheckPassphrase(typed); err != nil {
		return exitInput, inputError{err}
	}
	store, err := openStore(data, time.Now)
	if err != nil {
		return exitFailed, err
	}
	said, err := setKeeper(context.Background(), store, *house, strings.TrimSpace(*name), typed)
	if err = errors.Join(err, store.Close()); err != nil {
		return exitFailed, err
	}
	fmt.Fprintln(r.out, said)
	return exitDone, nil
}

// setKeeper makes the account the household's keeper with this passphrase, and says
// what was done.
func setKeeper(ctx context.Context, store database, house, name, typed string) (string, error) {
	h, err := householdFor(ctx, store, house)
	if err != nil {
		return "", err
	}
	gate := access.NewGate(store, time.Now)
	a, _, err := store.FindAccount(ctx, name)
	switch {
	case errors.Is(err, access.ErrUnknown):
		_, err = gate.Open(ctx, access.Account{HouseholdID: h.ID, Name: name, Role: access.Keeper}, typed)
		return fmt.Sprintf("%s is keeper of the household %s; from now on every page asks to sign in", name, h.Name), err
	case err != nil:
		return "", err
	case a.HouseholdID != h.ID:
		return "", badInput("the account %q belongs to another household; expected another --name", name)
	}
	err = errors.Join(store.SetRole(ctx, h.ID, a.ID, access.Keeper), gate.Reset(ctx, h.ID, a.ID, typed))
	return fmt.Sprintf("%s is keeper of the household %s with the new passphrase, and signed out everywhere", a.Name, h.Name), err
}

// householdFor finds the household of a name or makes it; with no name, the only one.
func householdFor(ctx context.Context, store database, name string) (household.Household, error) {
	all, err := store.ListHouseholds(ctx)
	if err != nil {
		return household.Household{}, err
	}
	for _, h := range all {
		if name == "" && len(all) == 1 || name != "" && strings.EqualFold(h.Name, name) {
			return h, nil
		}
	}
	if name == "" {
		return household.Household{}, badInput("the data file keeps %s; expected --household NAME", count(len(all), "household"))
	}
	return store.CreateHousehold(ctx, household.Household{Name: name})
}

// maxTyped is the most bytes read of a passphrase.
const maxTyped = 4096

// readPassphrase reads one line: from a terminal twice and unseen, where stty is there.
func (r *run) readPassphrase() (string, error) {
	in := bufio.NewReader(io.LimitReader(r.in, maxTyped))
	file, ok := r.in.(*os.File)
	if !ok || !isTerminal(file) {
		return readLine(in)
	}
	if hide(file, "-echo") {
		defer hide(file, "echo")
		shownWhenEnded(file)
	} else {
		fmt.Fprintln(r.errs, "What you type will be seen on the screen.")
	}
	fmt.Fprint(r.errs, "Passphrase, at least 15 characters: ")
	first, err := readLine(in)
	if err != nil {
		return "", err
	}
	fmt.Fprint(r.errs, "\nOnce more: ")
	second, err := readLine(in)
	fmt.Fprintln(r.errs)
	if err == nil && first != second {
		return "", badInput("the two are not alike; nothing was changed")
	}
	return first, err
}

// shownWhenEnded turns the echo on again where the program is ended while it asks.
func shownWhenEnded(file *os.File) {
	ended := make(chan os.Signal, 1)
	signal.Notify(ended, os.Interrupt)
	go func() {
		<-ended
		hide(file, "echo")
		os.Exit(exitFailed)
	}()
}

func readLine(in *bufio.Reader) (string, error) {
	line, err := in.ReadString('\n')
	if err != nil && !errors.Is(err, io.EOF) {
		return "", fmt.Errorf("read the passphrase: %w", err)
	}
	return strings.TrimRight(line, "\r\n"), nil
}

func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// hide turns the terminal's echo off or on and reports whether it could.
func hide(f *os.File, how string) bool {
	c := exec.Command("stty", how)
	c.Stdin = f
	return c.Run() == nil
}
