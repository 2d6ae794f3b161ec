package server_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestSigningInAddingAnAccountAndSharing goes through the pages as a keeper does, on
// a small phone and a desk, with scripts and without.
func TestSigningInAddingAnAccountAndSharing(t *testing.T) {
	needBrowser(t)
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

// TestWhoeverHasALinkReadsTheCardInABrowser opens it without signing in.
func TestWhoeverHasALinkReadsTheCardInABrowser(t *testing.T) {
	needBrowser(t)
	s := newStreet(t)
	b := newTab(t, s.house, screens()[1])
	b.open(strings.TrimPrefix(s.share, s.url))
	assert.Contains(t, b.words(), "Harbour bean pot")
	assert.Contains(t, b.words(), "A serving holds")
	assert.NotContains(t, b.words(), "Ana")
	b.onPaper()
	assert.Contains(t, b.words(), "Ingredients")
}

// TestThePagesBehindASignInAreAccessible walks what the other walk does not reach.
func TestThePagesBehindASignInAreAccessible(t *testing.T) {
	axe := axeSource(t)
	s := newStreet(t)
	for _, scheme := range []string{"light", "dark"} {
		t.Run(scheme, func(t *testing.T) {
			b := newTab(t, s.house, screens()[0])
			b.prefer("prefers-color-scheme", scheme)
			for _, path := range []string{strings.TrimPrefix(s.share, s.url), "/h/1/account"} {
				b.open(path)
				b.accessible(axe, path)
			}
			b.fill("name", "ana")
			b.fill("passphrase", passphrase)
			b.click("main button[type=submit]")
			b.accessible(axe, "the account page")
			b.fill("name", "nora")
			b.click(`form[action="/h/1/accounts/new"] button`)
			b.accessible(axe, "an account without a passphrase")
			b.fill("client", "kitchen clock")
			b.click(`form[action="/h/1/tokens/new"] button`)
			b.accessible(axe, "a token")
			b.open(s.dish + "/share")
			b.click("main form button")
			b.accessible(axe, "a new link")
			b.open("/h/1/account")
			b.click(`form[action="/logout"] button`)
			b.accessible(axe, "signed out")
		})
	}
}
