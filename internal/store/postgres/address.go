package postgres

import (
	"errors"
	"fmt"
	"net/url"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

// IsURL reports whether what a person gave means a database of this package.
func IsURL(at string) bool {
	return strings.HasPrefix(at, "postgres://") || strings.HasPrefix(at, "postgresql://")
}

var errURL = errors.New("the URL can't be read; expected postgres://USER@HOST/DATABASE, and in a password %40 for @, %2F for /, %3A for : and %23 for #")

// parse reads a URL. What it could not read is not repeated: a password may be in it.
func parse(at string) (*pgx.ConnConfig, error) {
	if _, err := url.Parse(at); err != nil || !IsURL(at) {
		return nil, errURL
	}
	config, err := pgx.ParseConfig(at)
	var fault *pgconn.ParseConfigError
	if errors.As(err, &fault) {
		words := err.Error() // cannot parse `URL`: WORDS
		words, _, _ = strings.Cut(words[strings.LastIndex(words, "`: ")+len("`: "):], " (strconv.")
		return nil, fmt.Errorf("%w (%s)", errURL, withoutQuotes(words))
	}
	if err != nil {
		return nil, errURL
	}
	for name, value := range map[string]string{
		"application_name":                    "potwright",
		"lock_timeout":                        "10s", // a writer that waits longer is told so
		"idle_in_transaction_session_timeout": "60s", // a program that vanished holds no lock for long
	} {
		if _, given := config.RuntimeParams[name]; !given {
			config.RuntimeParams[name] = value
		}
	}
	return config, nil
}

// withoutQuotes leaves out what is quoted, and all that may have been written between
// two quotes: a setting.
func withoutQuotes(words string) string {
	from, to := strings.Index(words, `"`), strings.LastIndex(words, `"`)
	if from == to {
		return words
	}
	return words[:from] + `"…"` + words[to+1:]
}

// named is the database without its password.
func named(c *pgx.ConnConfig) string {
	u := url.URL{Scheme: "postgres", Host: fmt.Sprintf("%s:%d", c.Host, c.Port), Path: "/" + c.Database}
	if strings.HasPrefix(c.Host, "/") { // a socket's folder
		u.Host, u.RawQuery = "", "host="+c.Host
	}
	if c.User != "" {
		u.User = url.User(c.User)
	}
	return u.String()
}
