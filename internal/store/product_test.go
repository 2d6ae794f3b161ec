package store_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/kitchen"
	"potwright/internal/product"
)

func mustProduct(t *testing.T, s *kept, householdID int64, name string) product.Product {
	t.Helper()
	p, err := s.SaveProduct(t.Context(), householdID, product.Product{Label: product.Label{Name: name, Panel: product.US, Serving: "30 g",
		Figures: map[string]string{"sodium_mg": "<5 mg"}}}, "")
	require.NoError(t, err)
	return p
}

func TestProductsAreKeptAsTyped(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h := mustHousehold(t, s, "Harbour Street")
		saved := mustProduct(t, s, h.ID, "Moonroot paste")
		found, err := s.FindProduct(t.Context(), h.ID, saved.ID)
		require.NoError(t, err)
		assert.Equal(t, saved, found)
		assert.Equal(t, "<5 mg", found.Label.Figures["sodium_mg"])
		assert.True(t, fixedTime.Equal(found.SavedAt))

		found.Label.Serving = "15 g"
		changed, err := s.SaveProduct(t.Context(), h.ID, found, "")
		require.NoError(t, err)
		assert.Equal(t, saved.ID, changed.ID)
		mustProduct(t, s, h.ID, "apple butter")
		list, err := s.ListProducts(t.Context(), h.ID)
		require.NoError(t, err)
		require.Len(t, list, 2)
		assert.Equal(t, "apple butter", list[0].Label.Name, "by name")
		assert.Equal(t, "15 g", list[1].Label.Serving)
	})
}

func TestAProductNameStandsOnceInAHousehold(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, other := mustHousehold(t, s, "Harbour Street"), mustHousehold(t, s, "Mill Row")
		p := mustProduct(t, s, h.ID, "Moonroot paste")
		_, err := s.SaveProduct(t.Context(), h.ID, product.Product{Label: product.Label{Name: " moonroot  PASTE"}}, "")
		require.ErrorIs(t, err, kitchen.ErrTaken)
		mustProduct(t, s, other.ID, "Moonroot paste")
		second := mustProduct(t, s, h.ID, "Fen salt")
		second.Label.Name = p.Label.Name
		_, err = s.SaveProduct(t.Context(), h.ID, second, "")
		require.ErrorIs(t, err, kitchen.ErrTaken)
	})
}

func TestOneHouseholdNeverSeesAnothersProducts(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, other := mustHousehold(t, s, "Harbour Street"), mustHousehold(t, s, "Mill Row")
		p := mustProduct(t, s, h.ID, "Moonroot paste")
		_, err := s.FindProduct(t.Context(), other.ID, p.ID)
		require.ErrorIs(t, err, kitchen.ErrNotFound)
		_, err = s.SaveProduct(t.Context(), other.ID, p, "")
		require.ErrorIs(t, err, kitchen.ErrNotFound)
		require.ErrorIs(t, s.DeleteProduct(t.Context(), other.ID, p.ID), kitchen.ErrNotFound)
		list, err := s.ListProducts(t.Context(), other.ID)
		require.NoError(t, err)
		assert.Empty(t, list)
		_, err = s.SaveProduct(t.Context(), 99, product.Product{Label: product.Label{Name: "a"}}, "")
		require.ErrorIs(t, err, kitchen.ErrNotFound)
	})
}

func TestTheIdOfADeletedProductIsNotGivenAgain(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h := mustHousehold(t, s, "Harbour Street")
		p := mustProduct(t, s, h.ID, "Moonroot paste")
		require.NoError(t, s.DeleteProduct(t.Context(), h.ID, p.ID))
		require.ErrorIs(t, s.DeleteProduct(t.Context(), h.ID, p.ID), kitchen.ErrNotFound)
		assert.Greater(t, mustProduct(t, s, h.ID, "Moonroot paste").ID, p.ID)
	})
}

func TestADamagedLabelIsNamed(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h := mustHousehold(t, s, "Harbour Street")
		p := mustProduct(t, s, h.ID, "Moonroot paste")
		exec(t, s, `UPDATE products SET label = '[1]'`)
		_, err := s.FindProduct(t.Context(), h.ID, p.ID)
		require.ErrorContains(t, err, "table products, row 1: label is damaged")
	})
}
