package pages

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The texts are what these browsers send, from memory.
func TestABrowserIsToldInWords(t *testing.T) {
	for says, want := range map[string]string{
		"Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0":                                                                  "Firefox on Linux",
		"Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/140.0.0.0 Safari/537.36 Edg/140.0.0.0":           "Edge on Windows",
		"Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/140.0.0.0 Mobile Safari/537.36":                         "Chrome on Android",
		"Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.0 Mobile/15E148 Safari/604.1": "Safari on iPhone",
		"<script>": "a browser", "": "a browser",
	} {
		assert.Equal(t, want, deviceWords(says), says)
	}
}

func TestANextAddressStaysHere(t *testing.T) {
	for typed, want := range map[string]string{
		"/h/1/week?day=2026-01-01": "/h/1/week?day=2026-01-01", "": "/", "h/1": "/", "//elsewhere.example": "/", `/\elsewhere.example`: "/",
		"https://elsewhere.example/": "/", "javascript:alert(1)": "/", "/\n/elsewhere.example": "/", "/%zz": "/",
	} {
		assert.Equal(t, want, ownAddress(typed), "%q", typed)
	}
}
