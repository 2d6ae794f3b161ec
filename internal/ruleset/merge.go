package ruleset

import (
	"strconv"

	"potwright/internal/cooking"
	"potwright/internal/household"
	"potwright/internal/keeping"
	"potwright/internal/swap"
	"potwright/internal/taste"
)

// byID puts own entries over others: one of the same id takes its place, a new
// one comes after them.
func byID[T any](others, own []T, id func(T) string) []T {
	out := append([]T(nil), others...)
	at := make(map[string]int, len(out))
	for i, x := range out {
		at[id(x)] = i
	}
	for _, x := range own {
		if i, there := at[id(x)]; there {
			out[i] = x
			continue
		}
		at[id(x)] = len(out)
		out = append(out, x)
	}
	return out
}

func ruleID(r swap.Rule) string                { return r.ID }
func refusalID(r swap.Refusal) string          { return r.ID }
func balanceID(b swap.Balance) string          { return b.Function.String() }
func avoidID(a household.AvoidRule) string     { return a.ID }
func levelID(l household.Level) string         { return strconv.Itoa(l.Level) }
func featureID(f household.Feature) string     { return f.ID }
func actionID(a household.HandAction) string   { return a.ID }
func presetID(p household.Preset) string       { return p.ID }
func planID(p household.PlanPreset) string     { return p.ID }
func cautionID(c household.CautionRule) string { return c.ID }
func factorID(f cooking.Factor) string         { return f.ID }
func yieldID(y cooking.Yield) string           { return y.ID }
func adviceID(x keeping.Rule) string           { return x.ID }

func mergeNeeds(others, own household.Book) household.Book {
	out := others
	out.Avoid = byID(others.Avoid, own.Avoid, avoidID)
	out.Levels = byID(others.Levels, own.Levels, levelID)
	out.Features = byID(others.Features, own.Features, featureID)
	out.Actions = byID(others.Actions, own.Actions, actionID)
	out.Vessels = byID(others.Vessels, own.Vessels, func(v household.Vessel) string { return v.ID })
	out.Boils = byID(others.Boils, own.Boils, func(b household.Boil) string { return b.ID })
	out.Presets = byID(others.Presets, own.Presets, presetID)
	out.Plans = byID(others.Plans, own.Plans, planID)
	out.Cautions = byID(others.Cautions, own.Cautions, cautionID)
	if saysSomething(own.Smooth) {
		out.Smooth = own.Smooth
	}
	if saysSomething(own.Thin) {
		out.Thin = own.Thin
	}
	return out
}

func saysSomething(s household.Signs) bool {
	return len(s.Kinds)+len(s.Foods)+len(s.Words) > 0
}

// mergeFactors puts own factors first where ids differ: of factors the first
// that holds counts.
func mergeFactors(others, own cooking.Contents) cooking.Contents {
	out := others
	out.Factors = ownFirst(others.Factors, own.Factors, factorID)
	out.Yields = ownFirst(others.Yields, own.Yields, yieldID)
	if len(own.Rates) > 0 {
		out.Rates = own.Rates
	}
	if len(own.Alcohol.Steps) > 0 {
		out.Alcohol = own.Alcohol
	}
	if own.Marinade.High > 0 {
		out.CookingWater, out.Seasoning, out.Marinade = own.CookingWater, own.Seasoning, own.Marinade
	}
	return out
}

func mergeTaste(others, own taste.Book) taste.Book {
	if own.Fall.Source != "" {
		return own
	}
	return others
}

func ownFirst[T any](others, own []T, id func(T) string) []T {
	known := map[string]bool{}
	for _, x := range others {
		known[id(x)] = true
	}
	var out []T
	for _, x := range own {
		if !known[id(x)] {
			out = append(out, x)
		}
	}
	return append(out, byID(others, own, id)[:len(others)]...)
}
