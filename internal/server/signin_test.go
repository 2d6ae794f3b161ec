package server_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestSigningInAddingAnAccountAndSharing goes through the pages as a keeper does, on
// a small phone and a desk, with scripts and without.
func TestSigningInAddingAnAccountAndSharing(t *testing.T) {
	for _, size := range []screen{{"a small phone", 320, 600, false}, screens()[2]} {
		t.Run(size.name, func(t *testing.T) {
			s := newStreet(t)
			b := newTab(t, s.house, size)
			b.open(s.dish)
			assert.Contains(t, b.words(), "Sign in")
			b.fill("name", "ana")
			b.fill("passphrase", passphrase)
			b.click("main button[type=submit]")
			assert.Contains(t, b.words(), "Harbour bean pot", "the page asked for before")

			b.openLink(`header a[href="/h/1/account"]`)
			b.fill("name", "nora")
			b.fill("passphrase", "short")
			b.click(`form[action="/h/1/accounts/new"] button`)
			assert.Contains(t, b.words(), "at least 15")
			b.fill("passphrase", passphrase)
			b.click(`form[action="/h/1/accounts/new"] button`)
			assert.Contains(t, b.words(), "The account is saved.")
			b.fill("client", "kitchen clock")
			b.click(`form[action="/h/1/tokens/new"] button`)
			assert.Contains(t, b.words(), "shown this once")

			b.open(s.dish + "/card")
			b.openLink(`main a[href*="/share?"]`)
			b.click("main form button")
			assert.Contains(t, b.words(), "shown this once")
			b.open("/h/1/account")
			b.click(`form[action="/logout"] button`)
			assert.Contains(t, b.words(), "Sign in")
		})
	}
}
