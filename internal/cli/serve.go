package cli

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"log/slog"
	"net"
	"net/netip"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"

	"potwright/internal/demo"
	"potwright/internal/kitchen"
	"potwright/internal/server"
	"potwright/internal/store/sqlite"
)

// defaultAddress is loopback only: nobody else on the network can connect.
const defaultAddress = "127.0.0.1:8097"

// What is kept at hand of saved versions: analyses of some 100 kB and gists of
// some 5 kB.
const (
	keptAnalyses = 100
	keptGists    = 20_000
)

func serve(r *run) (int, error) {
	f := flag.NewFlagSet("potwright serve", flag.ContinueOnError)
	address := f.String("address", defaultAddress, "host:port to listen on; other than this computer's own only once a passphrase is set")
	var front server.Front
	f.Func("host", "a name under which the pages are asked for, besides the address's own; may be given several times", func(name string) error {
		front.Hosts = append(front.Hosts, name)
		return nil
	})
	f.StringVar(&front.Cert, "tls-cert", "", "certificate file (PEM) to serve HTTPS with")
	f.StringVar(&front.Key, "tls-key", "", "the certificate's key file (PEM)")
	f.BoolVar(&front.Forwarded, "https-forwarded", false, "a server in front takes HTTPS and passes on the visitor's address last in X-Forwarded-For")
	data := ""
	dataFlag(f, &data)
	invented := f.Bool("demo", false, "show an invented household, forgotten at the end")
	keep := f.Int("keep-backups", sqlite.DefaultKeep, "how many daily copies of the data file to keep beside it; 0 takes none")
	r.rulesFlag(f)
	r.foodsFlag(f)
	if err := r.parseFlags(f, r.args); err != nil {
		return exitDone, err
	}
	if len(f.Args()) > 0 {
		return exitInput, badInput("serve takes no file %q; expected --data FILE", f.Arg(0))
	}
	if data != "" || !*invented { // the demo is put in no place but one named beside it
		var err error
		if data, err = dataNamed(data); err != nil {
			return exitInput, err
		}
	}
	if data == "" && !*invented {
		return exitInput, badInput("nowhere to keep anything; expected --data FILE, or --demo to look around")
	}
	if *keep < 0 {
		return exitInput, badInput("--keep-backups %d is less than nothing; expected 0 or more", *keep)
	}
	if (front.Cert == "") != (front.Key == "") {
		return exitInput, badInput("--tls-cert and --tls-key belong together; expected both or none")
	}
	front.Address = *address
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	return exitDone, r.serveUntil(ctx, served{front, data, *invented, *keep})
}

// served is what serve was asked for.
type served struct {
	front    server.Front
	data     string
	invented bool
	keep     int // daily backups
}

func (r *run) serveUntil(ctx context.Context, o served) (err error) {
	defer func() {
		if ctx.Err() != nil && errors.Is(err, context.Canceled) {
			err = nil // it was ended before the pages were there
		}
	}()
	serveInMemory()
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
	store, err := openStore(o.data, k.Now)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, store.Close()) }()
	k.Store, k.Memory = store, kitchen.NewMemory(keptAnalyses, keptGists)
	if o.invented {
		if err := demo.Fill(ctx, k); err != nil && !errors.Is(err, kitchen.ErrTaken) {
			return err
		}
	}
	log := slog.New(slog.NewTextHandler(r.errs, nil))
	if file, ok := store.(*sqlite.Store); ok {
		defer backUpDaily(ctx, file, o.keep, log)()
	} else {
		log.InfoContext(ctx, "no copies are taken here: the database's server has its own programs for that")
	}
	guarded, err := store.HasAccounts(ctx)
	if err != nil {
		return err
	}
	handler, err := server.New(server.Config{Front: o.front, Access: store, Kitchen: k, Store: store, Foods: k.Table, Needs: k.Needs, Rulebook: book, Log: log,
		Demo: func(ctx context.Context) error { return demo.Fill(ctx, k) }})
	if err != nil {
		return err
	}
	o.front.Ready = func(at net.Addr) { r.tellAddress(o.front, at, guarded) }
	return server.Run(ctx, o.front, guarded, handler, log)
}

// tellAddress says where the pages are, once they are there.
func (r *run) tellAddress(front server.Front, at net.Addr, guarded bool) {
	scheme := "http"
	if front.Cert != "" {
		scheme = "https"
	}
	own, _ := net.InterfaceAddrs() // without them this computer's own place is told
	fmt.Fprintf(r.out, "Potwright is at %s (Ctrl+C ends it). %s\n", placesOf(scheme, at.String(), own), kitchen.Caution)
	if guarded && !front.Secure() && !front.Private() {
		fmt.Fprintln(r.out, "Passphrases and pages cross the network unencrypted; --tls-cert and --tls-key, or --https-forwarded behind a server that takes HTTPS, mend that.")
	}
}

// placesOf says where a browser finds the pages. What listens on every address of this
// computer is at no address that could be opened: told are this computer's own and
// those in own by which others on its network come.
func placesOf(scheme, at string, own []net.Addr) string {
	listening, err := netip.ParseAddrPort(at)
	if err != nil || !listening.Addr().IsUnspecified() {
		return scheme + "://" + at
	}
	place := func(ip netip.Addr) string {
		return fmt.Sprintf("%s://%s", scheme, netip.AddrPortFrom(ip, listening.Port()))
	}
	here := netip.AddrFrom4([4]byte{127, 0, 0, 1})
	var others []string
	for _, a := range own {
		network, err := netip.ParsePrefix(a.String())
		if ip := network.Addr().Unmap(); err == nil && ip.Is4() && ip.IsGlobalUnicast() {
			others = append(others, place(ip))
		}
	}
	if len(others) == 0 {
		return place(here)
	}
	return fmt.Sprintf("%s on this computer, and for others at %s", place(here), strings.Join(others, " or "))
}
