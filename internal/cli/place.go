package cli

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"runtime"
	"strings"
	"time"

	"potwright/internal/api"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/server"
)

// Where nothing else names a server and the token one is known by there.
const (
	serverVariable = "POTWRIGHT_SERVER"
	tokenVariable  = "POTWRIGHT_TOKEN"
)

// answerTime is how long an answer of a server is waited for.
const answerTime = 30 * time.Second

// place is where households and recipes are kept: a data file or a database, or a
// server that has one.
type place struct {
	data, server, tokenFile string
	timeout                 time.Duration
	// fresh is set where the data file may be a new one.
	fresh bool
}

// flags adds the flags that name a place.
func (p *place) flags(f *flag.FlagSet) {
	dataFlag(f, &p.data)
	f.StringVar(&p.server, "server", "", "in place of --data, the address of a running potwright serve ("+serverVariable+" where neither is given)")
	f.StringVar(&p.tokenFile, "token-file", "", "a file that only you may read, with the token for the server in it ("+tokenVariable+" where it is not given)")
	f.DurationVar(&p.timeout, "timeout", answerTime, "how long to wait for an answer of the server")
}

// parsePlace reads the flags of a command on what is kept, those that more adds among
// them, and exactly one further file, described by what.
func (r *run) parsePlace(name, what string, more func(*flag.FlagSet)) (p place, file string, err error) {
	file, err = r.parseOne(name, func(f *flag.FlagSet) { p.flags(f); more(f) }, func() error { return p.settleFor(name) }, "--data FILE "+what)
	return p, file, err
}

// settleFor is settle for a command that needs a place.
func (p *place) settleFor(name string) error {
	if err := p.settle(true); err != nil {
		return err
	}
	if !p.named() {
		return badInput("%s needs to know where things are kept; expected --data FILE, or --server URL", name)
	}
	return nil
}

// named reports whether there is a place.
func (p place) named() bool { return p.data+p.server != "" }

// settle takes the place of the environment where none is given and one is wanted, and
// refuses two.
func (p *place) settle(wanted bool) (err error) {
	if wanted && !p.named() {
		p.data, p.server = os.Getenv(dataVariable), os.Getenv(serverVariable)
	}
	if p.data != "" && p.server != "" {
		return badInput("--data and --server (or " + dataVariable + " and " + serverVariable + ") are two places; expected one of them")
	}
	if p.data, err = checkData(p.data); err != nil {
		return err
	}
	if p.timeout <= 0 {
		return badInput("--timeout %s is no time to wait; expected one such as 30s", p.timeout)
	}
	return nil
}

// openPlace puts the kitchen together over what is kept at a place.
func (r *run) openPlace(ctx context.Context, p place) (k *kitchen.Kitchen, done func() error, err error) {
	if p.server != "" {
		client, err := r.reachServer(p)
		if err != nil {
			return nil, nil, err
		}
		if k, err = r.openServer(ctx, p, client); err != nil {
			return nil, nil, err
		}
		return k, client.Close, nil
	}
	if k, _, err = r.openWith(rulesBeside(p.data), foodsBeside(p.data)); err != nil {
		return nil, nil, err
	}
	open := openData
	if p.fresh {
		open = func(data string) (database, error) { return openStore(data, k.Now) }
	}
	store, err := open(p.data)
	if err != nil {
		return nil, nil, err
	}
	k.Store = store
	return k, store.Close, nil
}

// reachServer is the way to a server, which it has not asked yet.
func (r *run) reachServer(p place) (*api.Client, error) {
	token, err := p.token()
	if err != nil {
		return nil, err
	}
	client, err := api.NewClient(api.Address{URL: p.server, Token: token, Timeout: p.timeout}, server.Formats{Asked: true})
	if err != nil {
		return nil, inputError{err}
	}
	if client.Unencrypted() {
		fmt.Fprintln(r.errs, "potwright: note: the token crosses the network unencrypted; https:// in the server's address mends that")
	}
	return client, nil
}

// openServer is openPlace for a server, after it was asked whether it is one.
func (r *run) openServer(ctx context.Context, p place, client *api.Client) (*kitchen.Kitchen, error) {
	theirs, err := client.Figures(ctx)
	if err != nil {
		return nil, err
	}
	k, book, err := r.openWith("", "")
	if err != nil {
		return nil, err
	}
	ours, err := api.FiguresOf(k, book)
	if err != nil {
		return nil, err
	}
	if theirs != ours {
		fmt.Fprintf(r.errs, "potwright: note: %s goes by other rules or foods than are in force here, so figures may differ from its pages; --rules and --foods take its folders\n", p.server)
	}
	k.Store = client
	return k, nil
}

// token is what the server knows this client by.
func (p place) token() (string, error) {
	if p.tokenFile == "" {
		return asToken(os.Getenv(tokenVariable), tokenVariable)
	}
	info, err := os.Stat(p.tokenFile)
	if errors.Is(err, fs.ErrNotExist) {
		return "", badInput("there is no token file %q", p.tokenFile)
	}
	if err != nil {
		return "", inputError{err}
	}
	// Windows keeps who may read a file elsewhere than in its mode.
	if runtime.GOOS != "windows" && info.Mode().Perm()&0o077 != 0 {
		return "", badInput("others may read the token file %q; expected chmod 600", p.tokenFile)
	}
	text, err := os.ReadFile(p.tokenFile)
	if err != nil {
		return "", inputError{err}
	}
	return asToken(string(text), p.tokenFile)
}

// asToken is the token in a text; one that no header takes is not repeated.
func asToken(text, from string) (string, error) {
	token := strings.TrimSpace(text)
	if strings.ContainsFunc(token, func(r rune) bool { return r <= ' ' || r > '~' }) {
		return "", badInput("the token of %s is none; expected one line of letters, digits, - and _, as the account page showed it", from)
	}
	return token, nil
}

// householdFlag adds the flag that names a household that is kept.
func householdFlag(f *flag.FlagSet, name *string) {
	f.StringVar(name, "household", "", "the household's name; not needed where it is the only one")
}

// inHousehold does what a command does with a household that is kept, and closes where
// it is kept.
func (r *run) inHousehold(command string, p place, name string, do func(context.Context, *kitchen.Kitchen, household.Household) error) error {
	if err := p.settleFor(command); err != nil {
		return err
	}
	ctx := context.Background()
	k, h, done, err := r.openHousehold(ctx, p, name)
	if err != nil {
		return err
	}
	return errors.Join(do(ctx, k, h), done())
}

// openHousehold opens where the data is and finds a household there; done closes it,
// and is to be called where err is nil.
func (r *run) openHousehold(ctx context.Context, p place, name string) (k *kitchen.Kitchen, h household.Household, done func() error, err error) {
	if k, done, err = r.openPlace(ctx, p); err != nil {
		return nil, h, nil, err
	}
	if h, err = householdNamed(ctx, k.Store, name); err != nil {
		return nil, h, nil, errors.Join(err, done())
	}
	return k, h, done, nil
}

// householdNamed finds a household by name, the only one where none is given.
func householdNamed(ctx context.Context, shelf kitchen.Shelf, name string) (household.Household, error) {
	list, err := shelf.ListHouseholds(ctx)
	if err != nil {
		return household.Household{}, err
	}
	var names []string
	for _, h := range list {
		if h.Name == name || name == "" && len(list) == 1 {
			return h, nil
		}
		names = append(names, fmt.Sprintf("%q", h.Name))
	}
	if len(names) == 0 {
		return household.Household{}, badInput("no household is kept there")
	}
	if name == "" {
		return household.Household{}, badInput("several households are kept there; expected --household with one of %s", strings.Join(names, ", "))
	}
	return household.Household{}, badInput("--household %q is not one of the households; expected one of %s", name, strings.Join(names, ", "))
}

// elsewhere refuses --server for a command that works on the data file itself.
func elsewhere(c command, args []string) error {
	for _, a := range args {
		if c.onFile && (strings.TrimLeft(a, "-") == "server" || strings.HasPrefix(strings.TrimLeft(a, "-"), "server=")) && strings.HasPrefix(a, "-") {
			return badInput("%s works on the data file itself and on no server; run it with --data FILE where that file lies", c.name)
		}
	}
	return nil
}
