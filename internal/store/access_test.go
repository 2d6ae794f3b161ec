package store_test

import (
	"fmt"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/access"
	"potwright/internal/kitchen"
)

const someHash = "$argon2id$v=19$m=19456,t=2,p=1$c29tZXNhbHQ$a2V5"

func mustAccount(t *testing.T, s *kept, householdID int64, name string, role access.Role) access.Account {
	t.Helper()
	a, err := s.CreateAccount(t.Context(), access.Account{HouseholdID: householdID, Name: name, Role: role, CreatedAt: fixedNow().UTC()}, someHash)
	require.NoError(t, err)
	return a
}

func TestAccountsAreKeptApart(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		has, err := s.HasAccounts(t.Context())
		require.NoError(t, err)
		assert.False(t, has)
		mine, theirs := mustHousehold(t, s, "Quay Lane"), mustHousehold(t, s, "Mill Row")
		ana := mustAccount(t, s, mine.ID, "Ána", access.Keeper)
		ben := mustAccount(t, s, mine.ID, "Ben", access.Eater)
		has, err = s.HasAccounts(t.Context())
		require.NoError(t, err)
		assert.True(t, has)

		found, hash, err := s.FindAccount(t.Context(), "A\u0301NA")
		require.NoError(t, err)
		assert.Equal(t, someHash, hash)
		assert.Equal(t, ana, found)
		_, err = s.CreateAccount(t.Context(), access.Account{HouseholdID: theirs.ID, Name: "ána", Role: access.Cook}, someHash)
		assert.ErrorIs(t, err, access.ErrTaken, "one name opens one account")
		_, _, err = s.FindAccount(t.Context(), "nobody")
		assert.ErrorIs(t, err, access.ErrUnknown)

		assert.ErrorIs(t, s.SetRole(t.Context(), theirs.ID, ben.ID, access.Keeper), access.ErrUnknown, "another household's account")
		assert.ErrorIs(t, s.DeleteAccount(t.Context(), theirs.ID, ben.ID), access.ErrUnknown)
		assert.ErrorIs(t, s.SetRole(t.Context(), mine.ID, ana.ID, access.Cook), access.ErrLastKeeper)
		assert.ErrorIs(t, s.DeleteAccount(t.Context(), mine.ID, ana.ID), access.ErrLastKeeper)
		require.NoError(t, s.SetRole(t.Context(), mine.ID, ben.ID, access.Keeper))
		require.NoError(t, s.DeleteAccount(t.Context(), mine.ID, ana.ID))
		list, err := s.ListAccounts(t.Context(), mine.ID)
		require.NoError(t, err)
		ben.Role = access.Keeper
		assert.Equal(t, []access.Account{ben}, list)
	})
}

func TestSessionsEndOneByOneAndTogether(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s, now := on.newStore(t), fixedNow()
		h := mustHousehold(t, s, "Quay Lane")
		ana := mustAccount(t, s, h.ID, "Ana", access.Keeper)
		start := func(secret string, at time.Time) {
			one := access.Session{AccountID: ana.ID, Device: secret, StartedAt: at, SeenAt: at}
			require.NoError(t, s.StartSession(t.Context(), one, access.Digest(secret), now.Add(-time.Hour), now.Add(-time.Hour)))
		}
		start("old", now.Add(-2*time.Hour))
		start("one", now)
		start("two", now)
		_, _, err := s.FindSession(t.Context(), access.Digest("old"))
		assert.ErrorIs(t, err, access.ErrUnknown, "what is over is dropped at the next start")
		one, of, err := s.FindSession(t.Context(), access.Digest("one"))
		require.NoError(t, err)
		assert.Equal(t, ana, of)
		require.NoError(t, s.TouchSession(t.Context(), one.ID, now.Add(time.Minute)))
		list, err := s.ListSessions(t.Context(), ana.ID)
		require.NoError(t, err)
		require.Len(t, list, 2)
		assert.Equal(t, "one", list[0].Device, "the one seen last comes first")
		assert.ErrorIs(t, s.EndSession(t.Context(), ana.ID+1, one.ID), access.ErrUnknown, "another account's session")
		require.NoError(t, s.EndSession(t.Context(), ana.ID, one.ID))
		require.NoError(t, s.TouchSession(t.Context(), one.ID, now), "it ended meanwhile")
		_, _, err = s.FindSession(t.Context(), access.Digest("two"))
		require.NoError(t, err)
		require.NoError(t, s.SetHash(t.Context(), h.ID, ana.ID, someHash))
		_, _, err = s.FindSession(t.Context(), access.Digest("two"))
		assert.ErrorIs(t, err, access.ErrUnknown, "a new passphrase ends every session")
	})
}

func TestTokensAndLinksAreTheirHouseholds(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		mine, theirs := mustHousehold(t, s, "Quay Lane"), mustHousehold(t, s, "Mill Row")
		v := mustRecipe(t, s, mine.ID, "Soup")
		tok, err := s.CreateToken(t.Context(), access.Token{HouseholdID: mine.ID, Name: "clock", Role: access.Eater, CreatedAt: fixedNow().UTC()}, access.Digest("t"))
		require.NoError(t, err)
		require.NoError(t, s.TouchToken(t.Context(), tok.ID, fixedNow()))
		tok.UsedAt = fixedNow().UTC()
		found, err := s.FindToken(t.Context(), access.Digest("t"))
		require.NoError(t, err)
		assert.Equal(t, tok, found)
		assert.ErrorIs(t, s.DeleteToken(t.Context(), theirs.ID, tok.ID), access.ErrUnknown)
		require.NoError(t, s.DeleteToken(t.Context(), mine.ID, tok.ID))
		_, err = s.FindToken(t.Context(), access.Digest("t"))
		assert.ErrorIs(t, err, access.ErrUnknown)

		link := access.Link{HouseholdID: theirs.ID, RecipeID: v.RecipeID, VersionID: v.ID, CreatedAt: fixedNow().UTC()}
		_, err = s.CreateLink(t.Context(), link, access.Digest("l"))
		assert.ErrorIs(t, err, kitchen.ErrNotFound, "another household's recipe")
		link.HouseholdID = mine.ID
		link, err = s.CreateLink(t.Context(), link, access.Digest("l"))
		require.NoError(t, err)
		got, err := s.FindLink(t.Context(), access.Digest("l"))
		require.NoError(t, err)
		assert.Equal(t, link, got)
		assert.ErrorIs(t, s.DeleteLink(t.Context(), theirs.ID, v.RecipeID, link.ID), access.ErrUnknown)
		require.NoError(t, s.DeleteLink(t.Context(), mine.ID, v.RecipeID, link.ID))
		_, err = s.FindLink(t.Context(), access.Digest("l"))
		assert.ErrorIs(t, err, access.ErrUnknown)
	})
}

// Two programs that each look whether another keeper is left, and then take one away,
// must not both find the other's.
func TestTheLastTwoKeepersCannotBothStepDown(t *testing.T) {
	eachEngineAlways(t, func(t *testing.T, on engine) {
		place := on.place(t)
		programs := []*kept{on.mustOpen(t, place, fixedNow), on.mustOpen(t, place, fixedNow)}
		for round := range 5 {
			h := mustHousehold(t, programs[0], fmt.Sprint("H", round))
			two := []access.Account{mustAccount(t, programs[0], h.ID, fmt.Sprint("ana", round), access.Keeper), mustAccount(t, programs[0], h.ID, fmt.Sprint("ben", round), access.Keeper)}
			var wg sync.WaitGroup
			errs := make([]error, len(two))
			for i, a := range two {
				wg.Go(func() { errs[i] = programs[i].SetRole(t.Context(), h.ID, a.ID, access.Cook) })
			}
			wg.Wait()
			list, err := programs[0].ListAccounts(t.Context(), h.ID)
			require.NoError(t, err)
			keepers := 0
			for _, a := range list {
				if a.Role == access.Keeper {
					keepers++
				}
			}
			assert.Equal(t, 1, keepers, "%v", errs)
		}
	})
}
