package api

import (
	"bytes"
	"context"
	"crypto/x509"
	"encoding/json"
	"errors"
	"fmt"
	"net"
	"net/http"

	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
)

// unreached says why no answer came.
func (c *Client) unreached(err error) error {
	var slow net.Error
	var unknown x509.UnknownAuthorityError
	var name x509.HostnameError
	var old x509.CertificateInvalidError
	switch {
	case errors.Is(err, context.Canceled):
		return err
	case errors.As(err, &slow) && slow.Timeout():
		return fmt.Errorf("the server at %s took longer than %s to answer: ask again, or give it longer with --timeout", c.base.Host, c.http.Timeout)
	case errors.As(err, &unknown):
		return fmt.Errorf("the certificate of %s is signed by nobody this computer trusts: where it is your own, name the file of the authority that signed it in SSL_CERT_FILE", c.base.Host)
	case errors.As(err, &name):
		return fmt.Errorf("the certificate at %s is for another name: %w; expected the name that the certificate has", c.base.Host, err)
	case errors.As(err, &old):
		return fmt.Errorf("the certificate of %s does not hold: %w", c.base.Host, err)
	case errors.Is(err, http.ErrSchemeMismatch):
		return fmt.Errorf("the server at %s speaks no HTTPS; expected http:// in its address", c.base.Host)
	}
	var at *net.OpError
	if errors.As(err, &at) {
		err = at
	}
	return fmt.Errorf("no server answers at %s: see that potwright serve runs there and that the address is right: %w", c.base.Host, err)
}

// stranger says that what answers is no server of this program.
func (c *Client) stranger(status int) error {
	return fmt.Errorf("%s answers %d %s: %w", c.base, status, http.StatusText(status), errStranger)
}

// refusedError is a problem that a server told of.
type refusedError struct {
	problem
	kind error // what it is among the errors of a Shelf; nil for none of them
}

// Unwrap is what it is among the errors of a Shelf.
func (e refusedError) Unwrap() error { return e.kind }

// refused is what the server says went wrong.
func (c *Client) refused(status int, kind string, text []byte) error {
	if status == http.StatusBadRequest && bytes.Contains(text, []byte("HTTP request to an HTTPS server")) {
		return fmt.Errorf("the server at %s speaks HTTPS; expected https:// in its address", c.base.Host)
	}
	var p problem
	if kind != "application/problem+json" || json.Unmarshal(text, &p) != nil || p.Detail == "" {
		return c.stranger(status)
	}
	e := refusedError{problem: p}
	switch status {
	case http.StatusNotFound:
		e.kind = kitchen.ErrNotFound
	case http.StatusConflict:
		e.kind = kitchen.ErrTaken
	case http.StatusPreconditionFailed:
		e.kind = kitchen.ErrChanged
	case http.StatusUnprocessableEntity:
		if len(p.Faults) > 0 {
			return diagnostic.Faults(p.Faults)
		}
	case http.StatusUnauthorized:
		e.Detail = fmt.Sprintf("the server at %s asks for a token: a keeper makes one on the account page; put it into the environment as POTWRIGHT_TOKEN, or into a file for --token-file", c.base.Host)
		if c.token != "" {
			e.Detail = fmt.Sprintf("the server at %s does not know this token: it was revoked, or belongs to another server; a keeper makes another on the account page", c.base.Host)
		}
	}
	return e
}
