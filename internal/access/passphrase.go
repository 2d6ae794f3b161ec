package access

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"golang.org/x/crypto/argon2"
	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// What a passphrase must be. Fifteen characters where it is the only proof:
// NIST SP 800-63B-4 (from memory). The upper bound only keeps the work bounded.
const (
	minPassphrase = 15 // characters
	maxPassphrase = 256
	minDistinct   = 5 // different characters; common practice, no source
)

// The cost of a guess: OWASP Password Storage Cheat Sheet, Argon2id with 19 MiB,
// two passes and one lane (from memory).
const (
	memoryKiB = 19 * 1024
	passes    = 2
	lanes     = 1
	saltBytes = 16
	keyBytes  = 32
)

// hashHead opens every stored hash, so that one made at another cost is told
// from today's.
var hashHead = fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$", argon2.Version, memoryKiB, passes, lanes)

// ErrHash is given for a stored hash that is not one of ours.
var ErrHash = errors.New("stored passphrase hash is damaged: set the passphrase anew")

// CheckPassphrase says what a new passphrase lacks; nil where it will do.
func CheckPassphrase(passphrase string) error {
	if !utf8.ValidString(passphrase) {
		return errors.New("the passphrase is not UTF-8 text: type it anew")
	}
	signs := []rune(norm.NFC.String(passphrase))
	distinct := map[rune]bool{}
	for _, r := range signs {
		distinct[r] = true
	}
	switch {
	case len(signs) < minPassphrase:
		return fmt.Errorf("the passphrase has %d characters: use at least %d, such as four or five words", len(signs), minPassphrase)
	case len(signs) > maxPassphrase:
		return fmt.Errorf("the passphrase has %d characters: use at most %d", len(signs), maxPassphrase)
	case len(distinct) < minDistinct:
		return fmt.Errorf("the passphrase repeats the same few characters: use at least %d different ones", minDistinct)
	}
	return nil
}

// Hasher hashes passphrases, a few at a time: each takes 19 MiB, and a flood of
// guesses must not take the memory of the machine. It is safe for concurrent use.
type Hasher struct{ turns chan struct{} }

// NewHasher makes one that works on so many at a time, one at least.
func NewHasher(atOnce int) *Hasher { return &Hasher{turns: make(chan struct{}, max(1, atOnce))} }

// Hash checks a new passphrase and gives what to store for it, with a salt of
// its own: $argon2id$v=19$m=…,t=…,p=…$salt$key.
func (h *Hasher) Hash(passphrase string) (string, error) {
	if err := CheckPassphrase(passphrase); err != nil {
		return "", err
	}
	salt := make([]byte, saltBytes)
	_, _ = rand.Read(salt) // crypto/rand.Read never fails
	enc := base64.RawStdEncoding
	return hashHead + enc.EncodeToString(salt) + "$" + enc.EncodeToString(h.key(passphrase, salt)), nil
}

// Verify reports whether the passphrase is the one that was hashed. An empty
// stored hash stands for an account that is not there: it takes the same work
// and is never right, so that the time tells nobody which names exist.
func (h *Hasher) Verify(stored, passphrase string) (bool, error) {
	if len(passphrase) > maxPassphrase*utf8.UTFMax {
		passphrase = "" // no account has it; the work stays bounded and the same
	}
	if stored == "" {
		h.key(passphrase, make([]byte, saltBytes))
		return false, nil
	}
	salt, key, err := parseHash(stored)
	if err != nil {
		return false, err
	}
	return subtle.ConstantTimeCompare(key, h.key(passphrase, salt)) == 1, nil
}

// foldName is what makes two names of accounts the same.
func foldName(name string) string { return cases.Fold().String(norm.NFC.String(name)) }

func (h *Hasher) key(passphrase string, salt []byte) []byte {
	h.turns <- struct{}{}
	defer func() { <-h.turns }()
	return argon2.IDKey([]byte(norm.NFC.String(passphrase)), salt, passes, memoryKiB, lanes, keyBytes)
}

func parseHash(stored string) (salt, key []byte, err error) {
	rest, ours := strings.CutPrefix(stored, hashHead)
	before, after, two := strings.Cut(rest, "$")
	if !ours || !two {
		return nil, nil, ErrHash
	}
	enc := base64.RawStdEncoding.Strict()
	salt, saltErr := enc.DecodeString(before)
	key, keyErr := enc.DecodeString(after)
	if saltErr != nil || keyErr != nil || len(salt) != saltBytes || len(key) != keyBytes {
		return nil, nil, ErrHash
	}
	return salt, key, nil
}
