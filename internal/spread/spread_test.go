package spread

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func ranges(t *rapid.T, label string) Range {
	mid := rapid.Float64Range(0, 1e4).Draw(t, label+" mid")
	down := rapid.Float64Range(0, 1).Draw(t, label+" down")
	up := rapid.Float64Range(0, 3).Draw(t, label+" up")
	return Between(mid*(1-down), mid, mid*(1+up))
}

// NIST/SEMATECH e-Handbook of Statistical Methods 1.3.6.7.1, table of the
// standard normal: 1.645 leaves 5 % above it.
func TestA90PercentRangeIs1645StandardDeviationsEachWay(t *testing.T) {
	r := FromSD(100, 10)
	assert.InDelta(t, 83.55, r.Low, 0.01)
	assert.InDelta(t, 116.45, r.High, 0.01)
}

// NIST Technical Note 1297 (1994), section A.3 and appendix: uncertainties of
// a sum add in quadrature, relative uncertainties of a product likewise.
func TestSumsAndProductsFollowThePropagationOfUncertainty(t *testing.T) {
	sum := Between(97, 100, 103).Add(Between(46, 50, 54))
	assert.InDelta(t, 150, sum.Mid, 1e-12)
	assert.InDelta(t, 5, sum.Up(), 1e-12)
	product := Relative(10, 0.03).Times(Relative(20, 0.04))
	assert.InDelta(t, 200, product.Mid, 1e-12)
	assert.InDelta(t, 0.05*200, product.Up(), 1e-12)
}

func TestRangesStayOrderedFiniteAndNonNegative(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := ranges(t, "a"), ranges(t, "b")
		k := rapid.Float64Range(0, 100).Draw(t, "k")
		for _, r := range []Range{a, b, a.Add(b), a.Times(b), a.Scale(k), a.Add(b).Add(a)} {
			assert.True(t, r.Valid(), "%+v", r)
		}
	})
}

func TestScalingASumIsTheSumOfTheScaled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := ranges(t, "a"), ranges(t, "b")
		k := rapid.Float64Range(0, 100).Draw(t, "k")
		x, y := a.Add(b).Scale(k), a.Scale(k).Add(b.Scale(k))
		tol := 1e-9 * math.Max(1, x.High)
		assert.InDelta(t, x.Mid, y.Mid, tol)
		assert.InDelta(t, x.High, y.High, tol)
		assert.InDelta(t, x.Low, y.Low, tol)
	})
}
