package store_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/measure"
)

// fullHousehold has something in every field.
func fullHousehold() household.Household {
	sodium, fibre := 600.0, 8.0
	return household.Household{
		Name:      "Harbour Street — Küche 厨房",
		Cook:      household.Cook{Spare: []string{"fine_knife_work", "tight_twist"}, LiftLimitKg: 2.5},
		Equipment: household.Equipment{Pots: []household.Pot{{Name: "blue pot", Litres: 4.7}}, NoScales: true, NoOven: true},
		MealShare: 0.4,
		Measures:  measure.Australian,
		Members: []household.Member{
			{
				Name: "Zoë", Age: 71, Portion: 1, PortionMin: 0.75, PortionMax: 1.25,
				Limits: []household.Limit{
					{Nutrient: composition.Sodium, AtMost: &sodium, Per: household.PerMeal, SetBy: household.Clinician},
					{Nutrient: composition.Fibre, AtLeast: &fibre, Per: household.PerDay, SetBy: household.Guidance},
				},
				Texture: &household.Texture{Level: 6, Avoid: []string{"stringy"}},
			},
			{
				Name: "Bo", Portion: 0.6, Avoid: []string{"milk", "food:celery"}, Cautions: []string{"grapefruit"},
				Plan: &household.Plan{
					Unit: "choice", Weights: map[composition.Nutrient]float64{composition.Carbohydrate: 1.0 / 15},
					RoundTo: 0.5, Floor: 0, Allowance: 4, Per: household.PerMeal, Free: []string{"non_starchy_vegetable"},
				},
			},
		},
	}
}

func TestCreateHousehold(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		t.Run("every field is read back as given", func(t *testing.T) {
			s := on.newStore(t)
			h, err := s.CreateHousehold(t.Context(), fullHousehold())
			require.NoError(t, err)
			got, err := s.FindHousehold(t.Context(), h.ID)
			require.NoError(t, err)
			assert.Equal(t, h, got)

			want := fullHousehold()
			want.ID, want.Members[0].ID, want.Members[1].ID = h.ID, h.Members[0].ID, h.Members[1].ID
			assert.Equal(t, want, got)
		})
		t.Run("the caller's members are left as they were", func(t *testing.T) {
			given := fullHousehold()
			_, err := on.newStore(t).CreateHousehold(t.Context(), given)
			require.NoError(t, err)
			assert.Equal(t, fullHousehold(), given)
		})
		t.Run("a name is taken whatever its letter case or composition", func(t *testing.T) {
			s := on.newStore(t)
			mustHousehold(t, s, "Café Straße")
			for _, name := range []string{"Café Straße", "CAFÉ STRASSE", "Cafe\u0301 straße"} {
				_, err := s.CreateHousehold(t.Context(), household.Household{Name: name})
				assert.ErrorIs(t, err, kitchen.ErrTaken, name)
			}
		})
		t.Run("two members of one name are refused and nothing is kept", func(t *testing.T) {
			s := on.newStore(t)
			h := household.Household{Name: "Twins", Members: []household.Member{{Name: "Åsa"}, {Name: "åsa"}}}
			_, err := s.CreateHousehold(t.Context(), h)
			assert.ErrorIs(t, err, kitchen.ErrTaken)
			assert.ErrorContains(t, err, `member "åsa"`)
			hs, err := s.ListHouseholds(t.Context())
			require.NoError(t, err)
			assert.Empty(t, hs)
		})
		t.Run("the same member name in two households is fine", func(t *testing.T) {
			s := on.newStore(t)
			for _, name := range []string{"One", "Two"} {
				_, err := s.CreateHousehold(t.Context(), household.Household{Name: name, Members: []household.Member{{Name: "A"}}})
				require.NoError(t, err)
			}
		})
	})
}

func TestCreateHouseholdRefuses(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		inf, nan := math.Inf(1), math.NaN()
		for name, h := range map[string]household.Household{
			"a blank name":                {Name: "  "},
			"a blank member name":         {Name: "H", Members: []household.Member{{Name: ""}}},
			"a meal share above one":      {Name: "H", MealShare: 1.5},
			"a negative lift limit":       {Name: "H", Cook: household.Cook{LiftLimitKg: -1}},
			"a portion that is no number": {Name: "H", Members: []household.Member{{Name: "A", Portion: nan}}},
			"a negative age":              {Name: "H", Members: []household.Member{{Name: "A", Age: -1}}},
			"an endless limit": {Name: "H", Members: []household.Member{
				{Name: "A", Limits: []household.Limit{{Nutrient: composition.Sodium, AtMost: &inf}}},
			}},
		} {
			t.Run(name, func(t *testing.T) {
				s := on.newStore(t)
				_, err := s.CreateHousehold(t.Context(), h)
				require.Error(t, err)
				assert.NotErrorIs(t, err, kitchen.ErrTaken)
				hs, err := s.ListHouseholds(t.Context())
				require.NoError(t, err)
				assert.Empty(t, hs)
			})
		}
	})
}

func TestFindHousehold(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		_, err := on.newStore(t).FindHousehold(t.Context(), 7)
		assert.ErrorIs(t, err, kitchen.ErrNotFound)
		assert.EqualError(t, err, "household 7: not found")
	})
}

func TestListHouseholds(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		hs, err := s.ListHouseholds(t.Context())
		require.NoError(t, err)
		assert.Empty(t, hs)

		b := mustHousehold(t, s, "bakers")
		a := mustHousehold(t, s, "Anglers")
		hs, err = s.ListHouseholds(t.Context())
		require.NoError(t, err)
		assert.Equal(t, []household.Household{a, b}, hs)
	})
}

func mustFull(t *testing.T, s *kept) household.Household {
	t.Helper()
	h, err := s.CreateHousehold(t.Context(), fullHousehold())
	require.NoError(t, err)
	return h
}

func TestSaveHousehold(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		t.Run("settings and members are replaced and members keep their ids", func(t *testing.T) {
			s := on.newStore(t)
			h := mustFull(t, s)
			zoe, bo := h.Members[0], h.Members[1]
			bo.Age = 10
			h.Name, h.Cook, h.MealShare = "Quay Street", household.Cook{}, 0.3
			h.Members = []household.Member{{Name: "New", Portion: 1}, bo, zoe} // order is kept too
			saved, err := s.SaveHousehold(t.Context(), h, "")
			require.NoError(t, err)
			assert.Equal(t, []int64{saved.Members[0].ID, bo.ID, zoe.ID},
				[]int64{saved.Members[0].ID, saved.Members[1].ID, saved.Members[2].ID})
			assert.Greater(t, saved.Members[0].ID, bo.ID)

			got, err := s.FindHousehold(t.Context(), h.ID)
			require.NoError(t, err)
			assert.Equal(t, saved, got)
		})
		t.Run("two members trade names", func(t *testing.T) {
			s := on.newStore(t)
			h := mustFull(t, s)
			h.Members[0].Name, h.Members[1].Name = h.Members[1].Name, h.Members[0].Name
			saved, err := s.SaveHousehold(t.Context(), h, "")
			require.NoError(t, err)
			assert.Equal(t, h, saved)
		})
		t.Run("a member left out is gone and its id is not used again", func(t *testing.T) {
			s := on.newStore(t)
			h := mustFull(t, s)
			gone := h.Members[1].ID
			h.Members = h.Members[:1]
			h, err := s.SaveHousehold(t.Context(), h, "")
			require.NoError(t, err)
			h.Members = append(h.Members, household.Member{Name: "Next"})
			h, err = s.SaveHousehold(t.Context(), h, "")
			require.NoError(t, err)
			assert.Greater(t, h.Members[1].ID, gone)
		})
		t.Run("its own name in another letter case is not taken", func(t *testing.T) {
			s := on.newStore(t)
			h := mustHousehold(t, s, "quay")
			h.Name = "QUAY"
			_, err := s.SaveHousehold(t.Context(), h, "")
			assert.NoError(t, err)
		})
	})
}

func TestSaveHouseholdRefuses(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		t.Run("another household's name is taken and nothing changes", func(t *testing.T) {
			s := on.newStore(t)
			mustHousehold(t, s, "Taken")
			h := mustFull(t, s)
			changed := h
			changed.Name, changed.Members = "taken", nil
			_, err := s.SaveHousehold(t.Context(), changed, "")
			assert.ErrorIs(t, err, kitchen.ErrTaken)
			got, err := s.FindHousehold(t.Context(), h.ID)
			require.NoError(t, err)
			assert.Equal(t, h, got)
		})
		t.Run("two members of one name are refused and nothing changes", func(t *testing.T) {
			s := on.newStore(t)
			h := mustFull(t, s)
			changed := h
			changed.Members = append([]household.Member{{Name: "BO"}}, h.Members...)
			_, err := s.SaveHousehold(t.Context(), changed, "")
			assert.ErrorIs(t, err, kitchen.ErrTaken)
			got, err := s.FindHousehold(t.Context(), h.ID)
			require.NoError(t, err)
			assert.Equal(t, h, got)
		})
		t.Run("a household that is not there is not found", func(t *testing.T) {
			_, err := on.newStore(t).SaveHousehold(t.Context(), household.Household{ID: 3, Name: "Ghost"}, "")
			assert.ErrorIs(t, err, kitchen.ErrNotFound)
		})
		t.Run("another household's member is not found and stays where it is", func(t *testing.T) {
			s := on.newStore(t)
			h := mustFull(t, s)
			other := mustHousehold(t, s, "Other")
			other.Members = h.Members[:1]
			_, err := s.SaveHousehold(t.Context(), other, "")
			assert.ErrorIs(t, err, kitchen.ErrNotFound)
			got, err := s.FindHousehold(t.Context(), h.ID)
			require.NoError(t, err)
			assert.Equal(t, h, got)
		})
		t.Run("one id given twice is not found the second time", func(t *testing.T) {
			s := on.newStore(t)
			h := mustFull(t, s)
			h.Members = append(h.Members, household.Member{ID: h.Members[0].ID, Name: "Copy"})
			_, err := s.SaveHousehold(t.Context(), h, "")
			assert.ErrorIs(t, err, kitchen.ErrNotFound)
		})
	})
}
