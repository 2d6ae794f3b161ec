package nutrient

import (
	"encoding/json"
	"fmt"

	"potwright/internal/composition"
	"potwright/internal/spread"
)

// writtenAmount is an amount as files hold it.
type writtenAmount struct {
	spread.Range
	Unknown int `json:"unknown,omitempty"`
}

// MarshalJSON writes the panel by nutrient ("sodium_mg"); what is known to be nothing
// is left out.
func (p Panel) MarshalJSON() ([]byte, error) {
	out := map[composition.Nutrient]writtenAmount{}
	for _, n := range composition.Nutrients() {
		if p[n] != (Amount{}) {
			out[n] = writtenAmount{p[n].Range, p[n].Unknown}
		}
	}
	return json.Marshal(out)
}

// UnmarshalJSON reads what MarshalJSON writes.
func (p *Panel) UnmarshalJSON(b []byte) error {
	var in map[composition.Nutrient]writtenAmount
	if err := json.Unmarshal(b, &in); err != nil {
		return err
	}
	*p = Panel{}
	for n, a := range in {
		if !a.Valid() || a.Unknown < 0 {
			return fmt.Errorf("%s: expected low, mid and high in order from 0 up, and unknown parts from 0 up", n)
		}
		p[n] = Amount{a.Range, a.Unknown}
	}
	return nil
}
