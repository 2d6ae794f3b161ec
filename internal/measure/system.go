package measure

import "fmt"

// System is whose cups and spoons a recipe means.
type System int

// Systems of kitchen measures. The zero value is US.
const (
	US System = iota
	UK
	Australian
	Metric
)

// overseas are the sizes that differ from the US ones, in millilitres.
//
// UK: the imperial pint, fluid ounce, quart and gallon are exact (the imperial
// gallon is 4.54609 l, UK Weights and Measures Act 1985, from memory); a cup is
// half an imperial pint, the tablespoon 15 ml and the teaspoon 5 ml of today's
// spoon sets (BS 1348, from memory; spoons of before the 1970s held about
// 17.7 ml). Australian: tablespoon 20 ml, teaspoon 5 ml, cup 250 ml (AS 1325,
// from memory). Metric: 15, 5 and 250 ml (common practice).
var overseas = map[System]map[string]float64{
	UK:         {"tsp": 5, "tbsp": 15, "cup": 284.130625, "fl oz": 28.4130625, "pint": 568.26125, "quart": 1136.5225, "gallon": 4546.09},
	Australian: {"tsp": 5, "tbsp": 20, "cup": 250, "fl oz": 28.4130625, "pint": 568.26125},
	Metric:     {"tsp": 5, "tbsp": 15, "cup": 250},
}

// systems in the order they are offered.
var systems = [...]struct {
	system    System
	key, name string
}{
	{US, "us", "US: cup 237 ml, tablespoon 14.8 ml, teaspoon 4.9 ml"},
	{UK, "uk", "UK: cup 284 ml (half a pint), tablespoon 15 ml, teaspoon 5 ml"},
	{Australian, "au", "Australian: cup 250 ml, tablespoon 20 ml, teaspoon 5 ml"},
	{Metric, "metric", "metric: cup 250 ml, tablespoon 15 ml, teaspoon 5 ml"},
}

// Systems lists every system in the order they are offered.
func Systems() []System {
	out := make([]System, len(systems))
	for i, s := range systems {
		out[i] = s.system
	}
	return out
}

// ParseSystem finds a system by its key: us, uk, au, metric.
func ParseSystem(key string) (System, bool) {
	for _, s := range systems {
		if s.key == key {
			return s.system, true
		}
	}
	return US, false
}

// Key is the system's word in files: us, uk, au or metric.
func (s System) Key() string { return s.entry().key }

// MarshalText writes the key.
func (s System) MarshalText() ([]byte, error) { return []byte(s.Key()), nil }

// UnmarshalText reads the key.
func (s *System) UnmarshalText(b []byte) error {
	system, ok := ParseSystem(string(b))
	if !ok {
		return fmt.Errorf("%q is no system of cups and spoons; expected us, uk, au or metric", b)
	}
	*s = system
	return nil
}

// Name is the system with its sizes, for people.
func (s System) Name() string { return s.entry().name }

func (s System) entry() (e struct {
	system    System
	key, name string
}) {
	for _, known := range systems {
		if known.system == s {
			return known
		}
	}
	return systems[0]
}

// In is the unit with its size in a system; one that every system shares is
// returned as it is.
func (u Unit) In(s System) Unit {
	if size, differs := overseas[s][u.Name]; differs {
		u.Size = size
	}
	return u
}
