package access

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestEachRoleMayWhatItsWordSays(t *testing.T) {
	for _, c := range []struct {
		role Role
		may  []Action
		not  []Action
	}{
		{Keeper, []Action{Read, LogEaten, ChangeRecipes, ChangePeople, ManageAccounts}, []Action{0, 99}},
		{Cook, []Action{Read, LogEaten, ChangeRecipes}, []Action{ChangePeople, ManageAccounts}},
		{Eater, []Action{Read, LogEaten}, []Action{ChangeRecipes, ChangePeople, ManageAccounts}},
		{"", nil, []Action{Read, LogEaten, ChangeRecipes, ChangePeople, ManageAccounts}},
	} {
		caller := Caller{HouseholdID: 1, Role: c.role}
		for _, a := range c.may {
			assert.NoError(t, caller.May(a), "%s: %s", c.role, a.doing())
		}
		for _, a := range c.not {
			assert.ErrorIs(t, caller.May(a), RefusedError{a}, "%s: %s", c.role, a.doing())
		}
	}
}

func TestARefusalSaysWhoMay(t *testing.T) {
	eater := Caller{HouseholdID: 1, Role: Eater}
	assert.EqualError(t, eater.May(ChangeRecipes), "only a keeper or a cook of the household may change recipes")
	assert.EqualError(t, eater.May(ChangePeople), "only a keeper of the household may change people and their limits")
	assert.EqualError(t, Caller{}.May(Read), "only someone with an account in the household may read this household's pages")
	_, err := ParseRole("boss")
	assert.EqualError(t, err, `role "boss": write keeper, cook or eater`)
}

func TestACallerSeesTheirOwnHouseholdOnly(t *testing.T) {
	assert.True(t, Caller{HouseholdID: 2}.Sees(2))
	assert.False(t, Caller{HouseholdID: 2}.Sees(3))
	assert.False(t, Caller{}.Sees(0), "nobody sees the household that is not there")
}

const good = "four plain words here"

func TestAPassphraseIsRefusedWithWhatItLacks(t *testing.T) {
	for typed, says := range map[string]string{
		"":                        "at least 15",
		"short":                   "has 5 characters",
		strings.Repeat("a", 20):   "different ones",
		strings.Repeat("ab", 200): "at most 256",
		"\xff plain words here":   "not UTF-8",
	} {
		assert.ErrorContains(t, CheckPassphrase(typed), says, "%.20q", typed)
	}
	assert.NoError(t, CheckPassphrase(good))
}

func TestAPassphraseIsKnownAgainAndNoOther(t *testing.T) {
	h := NewHasher(1)
	stored, err := h.Hash(good + " caf\u00e9")
	require.NoError(t, err)
	assert.NotContains(t, stored, good)
	for typed, want := range map[string]bool{
		good + " caf\u00e9": true, good + " cafe\u0301": true, // composed or not
		good: false, "": false, strings.Repeat("x", 1<<20): false,
	} {
		ok, err := h.Verify(stored, typed)
		require.NoError(t, err)
		assert.Equal(t, want, ok, "%.40q", typed)
	}
	again, err := h.Hash(good + " caf\u00e9")
	require.NoError(t, err)
	assert.NotEqual(t, stored, again, "a salt of its own")
	ok, err := h.Verify("", good)
	require.NoError(t, err)
	assert.False(t, ok, "no account")
}

func FuzzStoredHash(f *testing.F) {
	f.Add(hashHead + "AAAA$BBBB")
	f.Add("$argon2id$v=19$m=4294967295,t=9,p=1$AAAA$BBBB")
	f.Add(hashHead + strings.Repeat("A", 22) + "$" + strings.Repeat("A", 43))
	f.Fuzz(func(t *testing.T, stored string) {
		salt, key, err := parseHash(stored)
		if err != nil {
			assert.ErrorIs(t, err, ErrHash)
			return
		}
		assert.Len(t, salt, saltBytes)
		assert.Len(t, key, keyBytes)
	})
}

func TestASecretIsNotToldByItsDigest(t *testing.T) {
	a, b := NewSecret(), NewSecret()
	assert.NotEqual(t, a, b)
	assert.Len(t, a, 43, "256 bits in base64url, RFC 4648")
	// FIPS 180-4 example: SHA-256 of "abc".
	assert.Equal(t, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", Digest("abc"))
}

// clock is a Throttle's clock that a test sets.
type clock struct{ time.Time }

func throttle() (*Throttle, *clock) {
	c := &clock{time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC)}
	return NewThrottle(func() time.Time { return c.Time }), c
}

func TestAFloodOfGuessesIsHeldBack(t *testing.T) {
	th, now := throttle()
	for range th.byAddress.atOnce {
		_, ok := th.Try("ada", "address 1")
		require.True(t, ok)
	}
	wait, ok := th.Try("ada", "address 1")
	assert.False(t, ok)
	assert.Equal(t, th.byAddress.pause, wait)
	_, ok = th.Try("ben", "address 1")
	assert.False(t, ok, "nor for another account")
	_, ok = th.Try("ben", "address 2")
	assert.True(t, ok, "others are not held back")
	now.Time = now.Add(th.byAddress.pause)
	_, ok = th.Try("ada", "address 1")
	assert.True(t, ok, "one more with each pause")
	now.Time = now.Add(-24 * time.Hour)
	wait, _ = th.Try("ada", "address 1")
	assert.Equal(t, th.byAddress.pause, wait, "a clock set back locks nobody out for long")
	now.Time = now.Add(th.byAddress.pause)
	_, ok = th.Try("ada", "address 1")
	assert.True(t, ok)
}

// Six hours of a flood from two hundred addresses for one name, with each try taken as soon
// as it may be: the owner gets in from her own address at any time, and guessing is slow.
func TestAFloodFromElsewhereLocksNobodyOut(t *testing.T) {
	th, now := throttle()
	guesses := 0
	for minute := range 6 * 60 {
		for a := range 200 {
			if _, ok := th.Try("ada", "elsewhere "+strconv.Itoa(a)); ok {
				guesses++
			}
		}
		if minute%60 == 59 {
			_, ok := th.Try("ada", "home")
			require.True(t, ok, "minute %d: the owner from her own address", minute)
			wait, ok := th.Try("ada", "home")
			require.False(t, ok, "mistyped, she waits")
			require.LessOrEqual(t, wait, th.bySlow.pause)
			_, ok = th.TrySignedIn("7")
			require.True(t, ok, "who is signed in is held by nobody's tries")
		}
		now.Time = now.Add(time.Minute)
	}
	assert.LessOrEqual(t, guesses, 200*6*60/2+th.byName.atOnce+6*60, "one each two minutes an address, besides the name's own")
}

func TestWhoIsSignedInCannotGuessEither(t *testing.T) {
	th, _ := throttle()
	for range th.byName.atOnce {
		_, ok := th.TrySignedIn("7")
		require.True(t, ok)
	}
	_, ok := th.TrySignedIn("7")
	assert.False(t, ok)
	_, ok = th.TrySignedIn("8")
	assert.True(t, ok)
}

func TestAFloodOfNamesTakesNoMemory(t *testing.T) {
	th, _ := throttle()
	for range th.byName.atOnce {
		th.Try("ada", "elsewhere")
	}
	for i := range maxThrottled/2 + 100 {
		_, ok := th.Try("name "+strconv.Itoa(i), "network "+strconv.Itoa(i))
		require.True(t, ok, "nobody is turned away for want of room")
	}
	assert.LessOrEqual(t, len(th.full), maxThrottled)
	_, ok := th.Try("ada", "elsewhere")
	assert.False(t, ok, "who tried most is still known")
}
