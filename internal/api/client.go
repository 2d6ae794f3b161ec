package api

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"net/url"
	"strings"
	"time"
)

// Client is the way to another program's JSON door. It is a kitchen.Shelf: what the
// use cases look up and save is asked of that server, which decides what the token
// may do.
type Client struct {
	base    *url.URL
	token   string
	http    *http.Client
	formats Formats
	// routes are the operations by their ids.
	routes map[string]operation
	// kept are the archives whose photos may still be asked for.
	kept []*spool
}

// Close drops what was laid aside of the answers.
func (c *Client) Close() error {
	for _, s := range c.kept {
		s.drop()
	}
	c.kept = nil
	return nil
}

// Address is where a server is and what one is known by there.
type Address struct {
	// URL is the server's, such as http://127.0.0.1:8097, without the path of the door.
	URL string
	// Token is what the account page gave for this client; "" where none is asked for.
	Token string
	// Timeout bounds each question with its answer; 0 for none.
	Timeout time.Duration
}

// NewClient makes the way to a server, without asking it anything yet.
func NewClient(at Address, f Formats) (*Client, error) {
	u, err := url.Parse(strings.TrimSuffix(at.URL, "/"))
	if err != nil || u.Scheme != "http" && u.Scheme != "https" || u.Host == "" || u.User != nil || u.RawQuery != "" || u.Fragment != "" {
		return nil, fmt.Errorf("%.200q is no address of a server; expected one such as http://127.0.0.1:8097", at.URL)
	}
	u.Path = strings.TrimSuffix(u.Path, Base)
	c := &Client{base: u, token: at.Token, formats: f, routes: map[string]operation{}}
	// A redirect is never followed: it would hand the token on.
	c.http = &http.Client{Timeout: at.Timeout, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	for _, op := range operations() {
		c.routes[op.id] = op
	}
	return c, nil
}

// Unencrypted reports whether the token crosses a network where others can read it.
func (c *Client) Unencrypted() bool {
	host := c.base.Hostname()
	return c.token != "" && c.base.Scheme == "http" && host != "localhost" && !strings.HasPrefix(host, "127.") && host != "::1"
}

// Figures asks which program answers: an error where it is none that this one can
// talk to, else what FiguresOf tells of its rules and its food table.
func (c *Client) Figures(ctx context.Context) (string, error) {
	var said aboutAnswer
	if err := c.ask(ctx, question{id: "about"}, &said); err != nil {
		return "", err
	}
	if said.API != Version {
		return "", fmt.Errorf("the server at %s speaks version %q of the JSON door and this program version %q: use the program of the same release as the server", c.base.Host, said.API, Version)
	}
	return said.Figures, nil
}

// question is one operation to ask for.
type question struct {
	id string // of the operation
	// names are what stands for the names of its path, in order.
	names []any
	query url.Values
	body  any // sent as JSON, or as it is where it is a *spool; nil for none
	// over is the ETag of what it may take the place of; "" for whatever is there.
	over string
}

// What is read of an answer at most, bytes; a household's archive lies on the disk.
const (
	maxAnswer    = 256 << 20
	maxHousehold = 16 << 30
)

// ask asks and reads the answer into to: a pointer to what JSON is read into, to bytes
// for a file, or to a spool for an archive.
func (c *Client) ask(ctx context.Context, q question, to any) error {
	_, err := c.tagged(ctx, q, to)
	return err
}

// tagged is ask that gives the answer's ETag too.
func (c *Client) tagged(ctx context.Context, q question, to any) (tag string, err error) {
	req, err := c.request(ctx, q)
	if err != nil {
		return "", err
	}
	resp, err := c.http.Do(req)
	if err != nil {
		return "", c.unreached(err)
	}
	defer resp.Body.Close()
	if archive, ok := to.(*spool); ok && resp.StatusCode == c.routes[q.id].status && kindOf(resp) == archiveKind {
		laid, err := newSpool(func(w io.Writer) error {
			_, err := io.Copy(w, io.LimitReader(resp.Body, maxHousehold))
			return err
		})
		if err != nil {
			return "", c.unreached(err)
		}
		*archive = *laid
		return resp.Header.Get("ETag"), nil
	}
	text, err := io.ReadAll(io.LimitReader(resp.Body, maxAnswer))
	if err != nil {
		return "", c.unreached(err)
	}
	return resp.Header.Get("ETag"), c.read(q, resp, text, to)
}

// read reads the answer to a question.
func (c *Client) read(q question, resp *http.Response, text []byte, to any) error {
	op := c.routes[q.id]
	kind := kindOf(resp)
	if resp.StatusCode != op.status {
		return c.refused(resp.StatusCode, kind, text)
	}
	if file, ok := to.(*[]byte); ok && kind == op.gives {
		*file = text
		return nil
	}
	if kind != "application/json" {
		return c.stranger(resp.StatusCode)
	}
	if err := json.Unmarshal(text, to); err != nil {
		return fmt.Errorf("the server at %s answers %s otherwise than this program expects: %w; use the program of the same release as the server", c.base.Host, q.id, err)
	}
	return nil
}

func kindOf(resp *http.Response) string {
	kind, _, _ := mime.ParseMediaType(resp.Header.Get("Content-Type"))
	return kind
}

func (c *Client) request(ctx context.Context, q question) (*http.Request, error) {
	op, ok := c.routes[q.id]
	if !ok {
		return nil, fmt.Errorf("there is no operation %q", q.id)
	}
	path := Base + op.path
	for _, name := range q.names {
		before, rest, _ := strings.Cut(path, "/:")
		_, after, more := strings.Cut(rest, "/")
		path = before + "/" + url.PathEscape(fmt.Sprint(name))
		if more {
			path += "/" + after
		}
	}
	kind, sent, length := "", io.Reader(http.NoBody), int64(0)
	switch body := q.body.(type) {
	case nil:
	case *spool:
		kind, sent, length = op.takes, body.whole(), body.size
	default:
		text, err := json.Marshal(body)
		if err != nil {
			return nil, fmt.Errorf("write what is sent for %s: %w", q.id, err)
		}
		kind, sent, length = "application/json", bytes.NewReader(text), int64(len(text))
	}
	to := c.base.JoinPath(path)
	to.RawQuery = q.query.Encode()
	req, err := http.NewRequestWithContext(ctx, op.method, to.String(), sent)
	if err != nil {
		return nil, err
	}
	req.ContentLength = length
	if kind != "" {
		req.Header.Set("Content-Type", kind)
	}
	if q.over != "" {
		req.Header.Set("If-Match", q.over)
	}
	if c.token != "" {
		req.Header.Set("Authorization", "Bearer "+c.token)
	}
	return req, nil
}

// errStranger is given where what answers is no server of this program.
var errStranger = errors.New("what answers there is not Potwright, or a release before this one; expected the address that potwright serve tells")
