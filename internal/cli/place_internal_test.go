package cli

import (
	"context"
	"io"
	"net"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/server"
)

func TestWhoeverEndsItAtTheStartIsToldOfNoFault(t *testing.T) {
	ctx, end := context.WithCancel(t.Context())
	end()
	r := &run{out: io.Discard, errs: io.Discard}
	require.NoError(t, r.serveUntil(ctx, served{front: server.Front{Address: "127.0.0.1:0"}, data: filepath.Join(t.TempDir(), "kitchen.db")}))
}

func TestTheAddressThatIsToldCanBeOpened(t *testing.T) {
	own := []net.Addr{
		&net.IPNet{IP: net.IPv4(127, 0, 0, 1), Mask: net.CIDRMask(8, 32)}, &net.IPNet{IP: net.IPv4(192, 0, 2, 7), Mask: net.CIDRMask(24, 32)},
		&net.IPNet{IP: net.ParseIP("fe80::1"), Mask: net.CIDRMask(64, 128)}, &net.UnixAddr{Name: "x"},
	}
	for at, want := range map[string]string{
		"127.0.0.1:8097": "http://127.0.0.1:8097",
		"[::1]:8097":     "http://[::1]:8097",
		"192.0.2.7:80":   "http://192.0.2.7:80",
		"0.0.0.0:8097":   "http://127.0.0.1:8097 on this computer, and for others at http://192.0.2.7:8097",
		"[::]:8097":      "http://127.0.0.1:8097 on this computer, and for others at http://192.0.2.7:8097",
	} {
		assert.Equal(t, want, placesOf("http", at, own), at)
	}
	assert.Equal(t, "https://127.0.0.1:443", placesOf("https", "[::]:443", nil), "no network is known")
}
