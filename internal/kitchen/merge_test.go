package kitchen

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/adaptation"
	"potwright/internal/daybook"
)

func TestWishesOfTwoAreBothKept(t *testing.T) {
	type wishes = adaptation.Wishes
	pick := func(line int, rule string) []adaptation.Pick { return []adaptation.Pick{{Line: line, Rule: rule}} }
	for name, c := range map[string]struct {
		now, seen, wanted, want wishes
		collide                 bool
	}{
		"each locks a line":                    {now: wishes{Lock: []int{4}}, wanted: wishes{Lock: []int{2}}, want: wishes{Lock: []int{2, 4}}},
		"each refuses another swap":            {now: wishes{Refuse: pick(3, "b")}, wanted: wishes{Refuse: pick(1, "a")}, want: wishes{Refuse: append(pick(1, "a"), pick(3, "b")...)}},
		"one takes back, one leaves as is":     {now: wishes{}, seen: wishes{Refuse: pick(1, "a")}, wanted: wishes{Refuse: pick(1, "a")}, want: wishes{}},
		"one asks for less, one locks":         {now: wishes{MaxChanges: 2}, wanted: wishes{Lock: []int{0}}, want: wishes{Lock: []int{0}, MaxChanges: 2}},
		"both ask the same":                    {now: wishes{MaxChanges: 2}, wanted: wishes{MaxChanges: 2}, want: wishes{MaxChanges: 2}},
		"no more additions stays":              {now: wishes{AddNoMore: true}, seen: wishes{AddNoMore: true}, wanted: wishes{MaxChanges: 1}, want: wishes{AddNoMore: true, MaxChanges: 1}},
		"a share stays":                        {now: wishes{Insist: []adaptation.Pick{{Line: 1, Rule: "a", Share: 0.5}}}, seen: wishes{Insist: []adaptation.Pick{{Line: 1, Rule: "a", Share: 0.5}}}, wanted: wishes{Insist: pick(1, "a")}, want: wishes{Insist: []adaptation.Pick{{Line: 1, Rule: "a", Share: 0.5}}}},
		"one refuses what one insists on":      {now: wishes{Refuse: pick(1, "a")}, wanted: wishes{Insist: pick(1, "a")}, collide: true},
		"one locks what one wants changed":     {now: wishes{Lock: []int{1}}, wanted: wishes{Insist: pick(1, "a")}, collide: true},
		"each another cap":                     {now: wishes{MaxChanges: 2}, wanted: wishes{MaxChanges: 3}, collide: true},
		"each another aim":                     {now: wishes{Aim: adaptation.MostRoom}, wanted: wishes{Aim: adaptation.LeastEffort}, collide: true},
		"one who locks and wants it, as alone": {wanted: wishes{Lock: []int{1}, Insist: pick(1, "a")}, want: wishes{Lock: []int{1}, Insist: pick(1, "a")}},
	} {
		got, ok := mergedWishes(c.now, c.seen, c.wanted)
		assert.Equal(t, !c.collide, ok, name)
		if ok {
			assert.Equal(t, MarkOf(c.want), MarkOf(got), name)
		}
	}
}

func TestAnEntryMovedByTwo(t *testing.T) {
	at := func(date, meal, state string) EntryTime {
		return EntryTime{Date: daybook.Date(date), Meal: daybook.Meal(meal), State: daybook.State(state)}
	}
	seen := at("1", "evening", "planned")
	for name, c := range map[string]struct {
		now, wanted, want EntryTime
		collide           bool
	}{
		"one the day, one the meal":    {now: at("2", "evening", "planned"), wanted: at("1", "midday", "planned"), want: at("2", "midday", "planned")},
		"both to the same":             {now: at("2", "evening", "planned"), wanted: at("2", "evening", "planned"), want: at("2", "evening", "planned")},
		"each to another day":          {now: at("2", "evening", "planned"), wanted: at("3", "evening", "planned"), collide: true},
		"one moved it, one ate it":     {now: at("2", "evening", "planned"), wanted: at("1", "evening", "eaten"), collide: true},
		"nobody else came":             {now: seen, wanted: at("3", "midday", "eaten"), want: at("3", "midday", "eaten")},
		"one moved it, one left it so": {now: at("2", "midday", "eaten"), wanted: seen, want: at("2", "midday", "eaten")},
	} {
		got, ok := mergedTime(c.now, seen, c.wanted)
		assert.Equal(t, !c.collide, ok, name)
		if ok {
			assert.Equal(t, c.want, got, name)
		}
	}
}
