package server_test

import (
	"context"
	"crypto/x509"
	"encoding/pem"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/server"
)

func TestHTTPSIsServedWithACertificate(t *testing.T) {
	answer := http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { _, _ = w.Write([]byte("done")) })
	example := httptest.NewTLSServer(answer) // for its certificate and a client that trusts it
	defer example.Close()
	pair := example.TLS.Certificates[0]
	key, err := x509.MarshalPKCS8PrivateKey(pair.PrivateKey)
	require.NoError(t, err)
	dir := t.TempDir()
	front := server.Front{Address: freeAddress(t), Cert: filepath.Join(dir, "cert.pem"), Key: filepath.Join(dir, "key.pem")}
	require.NoError(t, os.WriteFile(front.Cert, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: pair.Certificate[0]}), 0o600))
	assert.ErrorContains(t, server.Run(t.Context(), front, true, answer, slog.New(slog.DiscardHandler)), "key.pem")
	require.NoError(t, os.WriteFile(front.Key, pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: key}), 0o600))

	ctx, stop := context.WithCancel(t.Context())
	over := make(chan error, 1)
	go func() { over <- server.Run(ctx, front, true, answer, slog.New(slog.DiscardHandler)) }()
	client := example.Client()
	require.Eventually(t, func() bool {
		r, err := client.Get("https://" + front.Address)
		if err != nil {
			return false
		}
		defer r.Body.Close()
		return r.StatusCode == http.StatusOK && r.TLS != nil
	}, 5*time.Second, 20*time.Millisecond)
	client.CloseIdleConnections()
	stop()
	require.NoError(t, <-over)
}

// freeAddress is a loopback address that nobody listens on.
func freeAddress(t *testing.T) string {
	t.Helper()
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	require.NoError(t, ln.Close())
	return ln.Addr().String()
}
