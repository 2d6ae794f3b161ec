package store_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/daybook"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

func panelOf(sodium float64) (p nutrient.Panel) {
	p[composition.Sodium] = nutrient.Amount{Range: spread.Relative(sodium, 1.0/3), Unknown: 1}
	return p
}

// day is a household of two with a dish, and an entry of it.
func day(t *testing.T, s *kept, name string) (household.Household, daybook.Entry) {
	t.Helper()
	h, err := s.CreateHousehold(t.Context(), household.Household{Name: name, Members: []household.Member{{Name: "Ana"}, {Name: "Ben"}}})
	require.NoError(t, err)
	v := mustRecipe(t, s, h.ID, "Soup")
	counted := panelOf(100)
	return h, daybook.Entry{MemberID: h.Members[0].ID, Date: "2026-03-01", Meal: daybook.Evening, State: daybook.Planned, VersionID: v.ID,
		Title: "Soup", Portion: 1.0 / 3, Grams: spread.Exact(210), Panel: panelOf(1.0 / 7), Counted: &counted}
}

func TestEntriesAreKeptToTheLastDigit(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, dish := day(t, s, "Quay Lane")
		food := daybook.Entry{MemberID: h.Members[1].ID, Date: "2026-03-01", Meal: daybook.Morning, State: daybook.Eaten, FoodID: "sr:1", Title: "apple", Panel: panelOf(2)}
		later := dish
		later.Date = "2026-03-08"
		saved, err := s.AddEntries(t.Context(), h.ID, []daybook.Entry{later, dish, food})
		require.NoError(t, err)
		got, err := s.ListEntries(t.Context(), h.ID, "2026-03-01", "2026-03-07")
		require.NoError(t, err)
		assert.Equal(t, saved[1:], got, "the days asked for, in the order written")

		moved := saved[0]
		moved.Date, moved.State = "2026-03-02", daybook.Eaten
		err = s.ChangeEntry(t.Context(), h.ID, moved, kitchen.MarkOf(saved[0]))
		require.NoError(t, err)
		found, err := s.FindEntry(t.Context(), h.ID, moved.ID)
		require.NoError(t, err)
		assert.Equal(t, moved, found)
		require.NoError(t, s.DeleteEntry(t.Context(), h.ID, moved.ID, ""))
		require.ErrorIs(t, s.DeleteEntry(t.Context(), h.ID, moved.ID, ""), kitchen.ErrNotFound)
		got, err = s.ListEntries(t.Context(), h.ID, "2026-01-01", "2026-12-31")
		require.NoError(t, err)
		assert.Equal(t, saved[1:], got)
	})
}

func TestAnEntryNamesOnlyWhatIsTheHouseholdsOwn(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, e := day(t, s, "Quay Lane")
		other, theirs := day(t, s, "Mill Row")
		saved, err := s.AddEntries(t.Context(), other.ID, []daybook.Entry{theirs})
		require.NoError(t, err)
		strange := func(change func(*daybook.Entry)) daybook.Entry { x := e; change(&x); return x }
		for name, bad := range map[string]daybook.Entry{
			"member":  strange(func(x *daybook.Entry) { x.MemberID = theirs.MemberID }),
			"version": strange(func(x *daybook.Entry) { x.VersionID = theirs.VersionID }),
		} {
			_, err := s.AddEntries(t.Context(), h.ID, []daybook.Entry{e, bad})
			require.ErrorIs(t, err, kitchen.ErrNotFound, name)
		}
		for name, bad := range map[string]daybook.Entry{
			"meal":  strange(func(x *daybook.Entry) { x.Meal = "supper" }),
			"state": strange(func(x *daybook.Entry) { x.State = "" }),
			"date":  strange(func(x *daybook.Entry) { x.Date = "2026-02-30" }),
			"both":  strange(func(x *daybook.Entry) { x.FoodID = "sr:1" }),
		} {
			_, err := s.AddEntries(t.Context(), h.ID, []daybook.Entry{e, bad})
			require.ErrorContains(t, err, "expected", name)
		}
		got, err := s.ListEntries(t.Context(), h.ID, "2026-01-01", "2026-12-31")
		require.NoError(t, err)
		assert.Empty(t, got, "all or none")
		_, err = s.FindEntry(t.Context(), h.ID, saved[0].ID)
		require.ErrorIs(t, err, kitchen.ErrNotFound)
		require.ErrorIs(t, s.DeleteEntry(t.Context(), h.ID, saved[0].ID, ""), kitchen.ErrNotFound)
		require.ErrorIs(t, s.ChangeEntry(t.Context(), h.ID, strange(func(x *daybook.Entry) { x.ID = saved[0].ID }), ""), kitchen.ErrNotFound)
	})
}

func TestSavingTheHouseholdKeepsItsDaysAndAMemberWhoLeavesTakesTheirs(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, e := day(t, s, "Quay Lane")
		bens := e
		bens.MemberID = h.Members[1].ID
		_, err := s.AddEntries(t.Context(), h.ID, []daybook.Entry{e, bens})
		require.NoError(t, err)
		h.Members[0].Name, h.Members[1].Name = "Ben", "Ana"
		_, err = s.SaveHousehold(t.Context(), h, "")
		require.NoError(t, err)
		got, err := s.ListEntries(t.Context(), h.ID, e.Date, e.Date)
		require.NoError(t, err)
		assert.Len(t, got, 2)

		h.Members = h.Members[:1]
		_, err = s.SaveHousehold(t.Context(), h, "")
		require.NoError(t, err)
		got, err = s.ListEntries(t.Context(), h.ID, e.Date, e.Date)
		require.NoError(t, err)
		require.Len(t, got, 1)
		assert.Equal(t, h.Members[0].ID, got[0].MemberID)
	})
}

func TestAContainerIsTakenOutOnceAndLoggedWithIt(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, e := day(t, s, "Quay Lane")
		other, _ := day(t, s, "Mill Row")
		box := daybook.Container{VersionID: e.VersionID, Title: "Soup", Portion: 1, Grams: spread.Exact(300), Frozen: "2026-03-01", BestBy: "2026-05-30"}
		saved, err := s.PutIn(t.Context(), h.ID, []daybook.Container{box, box})
		require.NoError(t, err)
		got, err := s.ListContainers(t.Context(), h.ID)
		require.NoError(t, err)
		assert.Equal(t, saved, got)

		strange := e
		strange.MemberID = other.Members[0].ID
		require.ErrorIs(t, s.TakeOut(t.Context(), h.ID, saved[0].ID, "2026-03-09", []daybook.Entry{strange}), kitchen.ErrNotFound)
		got, err = s.ListContainers(t.Context(), h.ID)
		require.NoError(t, err)
		assert.Len(t, got, 2, "nothing is taken out where it can't be written down")

		require.NoError(t, s.TakeOut(t.Context(), h.ID, saved[0].ID, "2026-03-09", []daybook.Entry{e}))
		require.ErrorIs(t, s.TakeOut(t.Context(), h.ID, saved[0].ID, "2026-03-09", nil), kitchen.ErrNotFound, "only once")
		require.ErrorIs(t, s.TakeOut(t.Context(), other.ID, saved[1].ID, "2026-03-09", nil), kitchen.ErrNotFound)
		require.ErrorContains(t, s.TakeOut(t.Context(), h.ID, saved[1].ID, "soon", nil), "expected a day")
		got, err = s.ListContainers(t.Context(), h.ID)
		require.NoError(t, err)
		assert.Equal(t, saved[1:], got)
		out, err := s.FindContainer(t.Context(), h.ID, saved[0].ID)
		require.NoError(t, err)
		assert.Equal(t, daybook.Date("2026-03-09"), out.Out)
		ate, err := s.ListEntries(t.Context(), h.ID, e.Date, e.Date)
		require.NoError(t, err)
		assert.Len(t, ate, 1)

		box.VersionID = 99
		_, err = s.PutIn(t.Context(), h.ID, []daybook.Container{box})
		require.ErrorIs(t, err, kitchen.ErrNotFound)
	})
}

func TestWhatWasThoughtOfADishIsKeptWithItsVersion(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, e := day(t, s, "Quay Lane")
		other, _ := day(t, s, "Mill Row")
		thin, err := s.SaveMade(t.Context(), h.ID, daybook.Made{VersionID: e.VersionID, Date: "2026-03-01", Rating: 2, Remark: "too thin"})
		require.NoError(t, err)
		good, err := s.SaveMade(t.Context(), h.ID, daybook.Made{VersionID: e.VersionID, Date: "2026-03-08", Rating: 5})
		require.NoError(t, err)
		v, err := s.FindVersion(t.Context(), h.ID, e.VersionID)
		require.NoError(t, err)
		got, err := s.ListMade(t.Context(), h.ID, v.RecipeID)
		require.NoError(t, err)
		assert.Equal(t, []daybook.Made{good, thin}, got, "the latest first")
		got, err = s.ListMade(t.Context(), other.ID, v.RecipeID)
		require.NoError(t, err)
		assert.Empty(t, got)
		_, err = s.SaveMade(t.Context(), other.ID, thin)
		require.ErrorIs(t, err, kitchen.ErrNotFound)
		_, err = s.SaveMade(t.Context(), h.ID, daybook.Made{VersionID: e.VersionID, Date: "2026-03-08", Rating: 6})
		require.ErrorContains(t, err, "rating 6")
		require.ErrorIs(t, s.DeleteMade(t.Context(), other.ID, thin.ID), kitchen.ErrNotFound)
		require.NoError(t, s.DeleteMade(t.Context(), h.ID, thin.ID))
		got, err = s.ListMade(t.Context(), h.ID, v.RecipeID)
		require.NoError(t, err)
		assert.Equal(t, []daybook.Made{good}, got)
	})
}

func TestADamagedPanelIsNamed(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, e := day(t, s, "Quay Lane")
		_, err := s.AddEntries(t.Context(), h.ID, []daybook.Entry{e})
		require.NoError(t, err)
		exec(t, s, `UPDATE entries SET panel = '{"sodium_mg":{"low":3,"mid":2,"high":1}}'`)
		_, err = s.ListEntries(t.Context(), h.ID, e.Date, e.Date)
		require.ErrorContains(t, err, "table entries, row 1: panel is damaged: sodium_mg: expected low, mid and high in order")
	})
}
