package ruleset

import (
	"fmt"
	"io"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/measure"

	yaml "go.yaml.in/yaml/v4"
)

// WriteHousehold writes a household as YAML that ReadHousehold reads back to
// the same household, apart from the ids it has in a store.
func WriteHousehold(w io.Writer, h household.Household) error {
	data, err := yaml.Dump(fileOf(h))
	if err != nil {
		return fmt.Errorf("write household %q: %w", h.Name, err)
	}
	if _, err := w.Write(data); err != nil {
		return fmt.Errorf("write household %q: %w", h.Name, err)
	}
	return nil
}

type householdFile struct {
	Household string         `yaml:"household"`
	Cook      *cookFile      `yaml:"cook,omitempty"`
	Equipment *equipmentFile `yaml:"equipment,omitempty"`
	MealShare float64        `yaml:"meal_share,omitempty"`
	Measures  string         `yaml:"measures,omitempty"`
	Members   []memberFile   `yaml:"members"`
}

type equipmentFile struct {
	Pots     []potFile `yaml:"pots,omitempty"`
	NoScales bool      `yaml:"no_scales,omitempty"`
	NoOven   bool      `yaml:"no_oven,omitempty"`
}

type potFile struct {
	Name   string  `yaml:"name"`
	Litres float64 `yaml:"litres"`
}

type cookFile struct {
	Hands handsFile `yaml:"hands"`
}

type handsFile struct {
	Spare       []string `yaml:"spare,omitempty"`
	LiftLimitKg float64  `yaml:"lift_limit_kg,omitempty"`
}

type memberFile struct {
	Name       string       `yaml:"name"`
	Age        int          `yaml:"age,omitempty"`
	Limits     []limitFile  `yaml:"limits,omitempty"`
	Plan       *planFile    `yaml:"plan,omitempty"`
	Avoid      []string     `yaml:"avoid,omitempty"`
	Dislikes   []string     `yaml:"dislikes,omitempty"`
	Cautions   []string     `yaml:"cautions,omitempty"`
	Texture    *textureFile `yaml:"texture,omitempty"`
	Portion    float64      `yaml:"portion,omitempty"`
	PortionMin float64      `yaml:"portion_min,omitempty"`
	PortionMax float64      `yaml:"portion_max,omitempty"`
}

type limitFile struct {
	Nutrient string   `yaml:"nutrient"`
	AtMost   *float64 `yaml:"at_most,omitempty"`
	AtLeast  *float64 `yaml:"at_least,omitempty"`
	Per      string   `yaml:"per"`
	SetBy    string   `yaml:"set_by"`
}

type planFile struct {
	Unit      string             `yaml:"unit"`
	Weights   map[string]float64 `yaml:"weights"`
	RoundTo   float64            `yaml:"round_to,omitempty"`
	Floor     float64            `yaml:"floor,omitempty"`
	Allowance float64            `yaml:"allowance"`
	Per       string             `yaml:"per"`
	Free      []string           `yaml:"free,omitempty"`
}

type textureFile struct {
	Level int      `yaml:"level"`
	Avoid []string `yaml:"avoid,omitempty"`
}

func fileOf(h household.Household) householdFile {
	out := householdFile{Household: h.Name, MealShare: h.MealShare}
	if h.Measures != measure.US {
		out.Measures = h.Measures.Key()
	}
	if len(h.Cook.Spare) > 0 || h.Cook.LiftLimitKg > 0 {
		out.Cook = &cookFile{Hands: handsFile{Spare: h.Cook.Spare, LiftLimitKg: h.Cook.LiftLimitKg}}
	}
	if e := h.Equipment; len(e.Pots) > 0 || e.NoScales || e.NoOven {
		out.Equipment = &equipmentFile{NoScales: e.NoScales, NoOven: e.NoOven}
		for _, p := range e.Pots {
			out.Equipment.Pots = append(out.Equipment.Pots, potFile(p))
		}
	}
	for _, m := range h.Members {
		out.Members = append(out.Members, memberOf(m))
	}
	return out
}

func memberOf(m household.Member) memberFile {
	out := memberFile{Name: m.Name, Age: m.Age, Avoid: m.Avoid, Dislikes: m.Dislikes, Cautions: m.Cautions, Portion: m.Portion, PortionMin: m.PortionMin, PortionMax: m.PortionMax}
	for _, l := range m.Limits {
		out.Limits = append(out.Limits, limitFile{Nutrient: l.Nutrient.Key(), AtMost: l.AtMost,
			AtLeast: l.AtLeast, Per: string(l.Per), SetBy: string(l.SetBy)})
	}
	if p := m.Plan; p != nil {
		out.Plan = &planFile{Unit: p.Unit, Weights: keyed(p.Weights), RoundTo: p.RoundTo, Floor: p.Floor,
			Allowance: p.Allowance, Per: string(p.Per), Free: p.Free}
	}
	if t := m.Texture; t != nil {
		out.Texture = &textureFile{Level: t.Level, Avoid: t.Avoid}
	}
	return out
}

func keyed(weights map[composition.Nutrient]float64) map[string]float64 {
	out := make(map[string]float64, len(weights))
	for n, x := range weights {
		out[n.Key()] = x
	}
	return out
}
