package product_test

import (
	"math"
	"strconv"

	"potwright/internal/composition"
	"potwright/internal/label"
)

func roundSodium(mg float64) float64 { return label.Round(composition.Sodium, mg) }

func roundTo(x, step float64) float64 { return math.Round(x/step) * step }

func figure(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
