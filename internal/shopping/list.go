package shopping

import (
	"slices"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/spread"
)

// Dish is one dish to buy for, its lines in order.
type Dish struct {
	Title string
	Lines []foodmatch.Matched
}

// Use is one line of a dish that an item is for. Dish and Line count from 0.
type Use struct {
	Dish, Line int
	Title      string // of the dish
	Text       string // the line as written
	ToTaste    bool
}

// Item is one thing to buy, for all its dishes together.
type Item struct {
	// Key tells the item from every other of a list, and is the same in the next.
	Key string
	// Food is nil where no line of it was read.
	Food *composition.Food
	// Name is what the lines call it, Row the table's name for it where that says
	// more; "" where it does not.
	Name, Row string
	// Amount is how much in the words of a shop; "" where nothing is measured.
	Amount string
	// Grams of edible portion, the sum over all uses; a zero range is not known.
	Grams spread.Range
	// Own is set for a product whose label the household keeps.
	Own bool
	// Optional is set where every use may be left out.
	Optional bool
	Uses     []Use
}

// ToTaste reports whether nothing is measured of it: it is only seasoned with.
func (it Item) ToTaste() bool {
	return len(it.Uses) > 0 && !slices.ContainsFunc(it.Uses, func(u Use) bool { return !u.ToTaste })
}

// tapWater are the rows of water from the tap, by the table's names: it is not
// bought.
var tapWater = []string{"water", "water, tap", "ice"}

func isWater(f *composition.Food) bool { return f != nil && slices.Contains(tapWater, f.Name) }

// gathered is an item while its uses are collected.
type gathered struct {
	item     Item
	measured []ingredient.Reading
	names    []string
	weighed  spread.Range // of what is written with an amount
	loose    bool         // a use without an amount, beside those with one
	needed   bool
	// pouredOff is set where the grams of a use are those taken up, fewer than are bought.
	pouredOff bool
}

// List is what to buy for the dishes, in the order first met. Lines of one food
// are one item; a line of which no food was read stands by itself, by its words.
func List(dishes []Dish, weights Weights) []Item {
	var all []*gathered
	at := map[string]*gathered{}
	for d, dish := range dishes {
		for i, m := range dish.Lines {
			for _, p := range parts(m) {
				if isWater(p.food) {
					continue
				}
				g := at[p.key]
				if g == nil {
					g = &gathered{item: Item{Key: p.key, Food: p.food, Own: p.food != nil && p.food.IsOwn()}}
					at[p.key] = g
					all = append(all, g)
				}
				g.add(p, Use{Dish: d, Line: i, Title: dish.Title, Text: m.Reading.Text, ToTaste: !p.reading.HasAmount})
			}
		}
	}
	out := make([]Item, len(all))
	for i, g := range all {
		out[i] = g.done(weights)
	}
	return out
}

// part is one food of a line.
type part struct {
	key, name string
	food      *composition.Food
	reading   ingredient.Reading
	grams     spread.Range
	optional  bool
	pouredOff bool
}

func parts(m foodmatch.Matched) []part {
	readings := append([]ingredient.Reading{m.Reading}, m.Reading.Together...)
	optional := m.State == foodmatch.Skipped || m.Reading.Optional
	if m.State == foodmatch.Unread || len(m.Items) == 0 {
		name := called(m.Reading, m.Reading.Text)
		return []part{{key: "words:" + strings.ToLower(name), name: name, reading: m.Reading, optional: optional}}
	}
	var out []part
	for i, it := range m.Items {
		if it.Food == nil {
			continue
		}
		r := readings[min(i, len(readings)-1)]
		p := part{key: it.Food.ID, name: called(r, it.Food.Name), food: it.Food, reading: r, grams: it.Grams, optional: optional, pouredOff: it.PouredOff}
		out = append(out, p)
	}
	return out
}

func (g *gathered) add(p part, u Use) {
	g.item.Uses = append(g.item.Uses, u)
	g.item.Grams = g.item.Grams.Add(p.grams)
	g.needed = g.needed || !p.optional
	g.call(p.name)
	if u.ToTaste {
		g.loose = true
		return
	}
	g.measured = append(g.measured, p.reading)
	g.weighed = g.weighed.Add(p.grams)
	g.pouredOff = g.pouredOff || p.pouredOff
}

func (g *gathered) done(w Weights) Item {
	it := g.item
	it.Name = strings.Join(g.names, " or ")
	if it.Food != nil && saysMore(it.Food.Name, it.Name) {
		it.Row = it.Food.Name
	}
	it.Optional = !g.needed
	it.Amount = amount(g, w)
	return it
}
