package keeping

import (
	"regexp"
	"strconv"
	"strings"
)

var degrees = regexp.MustCompile(`(\d{2,3})\s*(?:°|º|degrees?|deg\.?)?\s*([FfCc])(?:ahrenheit|elsius)?\b`)

// Inside temperatures of food lie in this range, in degrees Fahrenheit: ovens are
// set above it, fridges and doughs below. A design choice.
const (
	leastInside = 125
	mostInside  = 212
)

// insideTemperatures are the temperatures of food that a step names, in degrees
// Fahrenheit. An oven's low heat counts only where the step speaks of the inside
// of the food.
func insideTemperatures(step string) []float64 {
	var out []float64
	lower := strings.ToLower(step)
	speaks := strings.Contains(lower, "intern") || strings.Contains(lower, "thermometer") || strings.Contains(lower, "inside") ||
		strings.Contains(lower, "reach") || strings.Contains(lower, "register") || strings.Contains(lower, "center") || strings.Contains(lower, "centre") ||
		strings.Contains(lower, "temperature of") || strings.Contains(lower, "until")
	if !speaks {
		return nil
	}
	for _, m := range degrees.FindAllStringSubmatch(step, -1) {
		x, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			continue
		}
		if strings.EqualFold(m[2], "C") {
			x = x*9/5 + 32
		}
		if x >= leastInside && x <= mostInside {
			out = append(out, x)
		}
	}
	return out
}
