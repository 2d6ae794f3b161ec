package postgres

import (
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Neither an address that can't be read nor one that can is told with its password.
func FuzzAddress(f *testing.F) {
	const secret = "hunter2sesame"
	for _, at := range []string{
		"postgres://ana:" + secret + "@127.0.0.1:5432/kitchen?sslmode=disable", "postgresql://ana:" + secret + "@/kitchen?host=/run/postgresql",
		"postgres://ana:" + secret + "@[::1]:port/kitchen", "postgres://ana:" + secret + "/%zz@h/k", "postgres://:" + secret + "@h:1,h:2/k?target_session_attrs=any",
		"postgres://h/k?password=" + secret + "&sslmode=perhaps", "host=h password=" + secret, "postgres://", "mysql://ana:" + secret + "@h/k",
		"postgres://ana:" + secret + "@h/k?connect_timeout=" + secret, "postgres://h/k?user=" + url.QueryEscape("ana\x00") + "&password=" + secret, "postgres://h/k?" + secret,
		"postgres://root:" + secret + "@" + secret + ":5432/",
	} {
		f.Add(at)
	}
	f.Fuzz(func(t *testing.T, at string) {
		if strings.Contains(at, "file") || strings.Contains(at, "cert") || strings.Contains(at, "service") || strings.Contains(at, "key") {
			t.Skip("names a file of this computer to read")
		}
		config, err := parse(at)
		if err != nil {
			assert.Nil(t, config)
			assert.NotContains(t, err.Error(), secret)
			assert.NotContains(t, err.Error(), "\n")
			return
		}
		assert.True(t, IsURL(at))
		assert.Equal(t, "10s", config.RuntimeParams["lock_timeout"], "or what the address asks for")
		said := named(config)
		config.Password = "another"
		assert.Equal(t, said, named(config), "the password is no part of it, though a host or a user may be called the same")
	})
}
