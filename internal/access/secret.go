package access

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
)

// secretBytes makes a secret of 256 bits.
const secretBytes = 32

// NewSecret makes what a session, a token or a share link is known by: 256
// random bits, fit for an address and a cookie. It is shown once; what is stored
// is its Digest.
func NewSecret() string {
	b := make([]byte, secretBytes)
	_, _ = rand.Read(b) // crypto/rand.Read never fails
	return base64.RawURLEncoding.EncodeToString(b)
}

// Digest is what is stored of a secret, and looked up by: SHA-256 in hex. No salt
// and no slow hash are needed where the secret itself is random.
func Digest(secret string) string {
	sum := sha256.Sum256([]byte(secret))
	return hex.EncodeToString(sum[:])
}
