package kitchen

import (
	"sync"
	"time"

	"potwright/internal/composition"
	"potwright/internal/cooking"
	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/ingredient"
	"potwright/internal/keeping"
	"potwright/internal/measure"
	"potwright/internal/method"
	"potwright/internal/nutrient"
	"potwright/internal/photo"
	"potwright/internal/recall"
	"potwright/internal/recipe"
	"potwright/internal/swap"
	"potwright/internal/taste"
)

// Kitchen is the use cases over one food table, one rulebook, one book of needs,
// one of what cooking does, and one store. It is safe for concurrent use; Store
// may be nil where nothing is saved, Cooking and Keeping where what cooking does and
// how a dish is kept are left out.
type Kitchen struct {
	Table   *composition.Table
	Book    *swap.Book
	Needs   *household.Needs
	Cooking *cooking.Book
	Keeping *keeping.Book
	// Taste is what makes up for salt; nil where nothing is said of it.
	Taste *taste.Book
	Store Shelf
	// Darkroom is where photos that are sent are developed.
	Darkroom *photo.Darkroom
	// Memory keeps what was found of saved versions at hand; nil for nothing.
	Memory *Memory
	Now    func() time.Time
	// Measures is whose cups and spoons lines are measured in.
	Measures measure.System
}

// Analysis is a recipe read, matched and computed.
type Analysis struct {
	Recipe recipe.Recipe
	Pot    nutrient.Pot // Pot.Lines[i] belongs to Recipe.Lines[i]
	// Plan is what the method does to every line.
	Plan cooking.Plan
	// Remembered are the household's choices that the reading rests on.
	Remembered map[string]recipe.Correction
	// Table is the food table it was read with: the household's products lie over
	// the kitchen's own.
	Table *composition.Table
	// Measures is whose cups and spoons the lines were measured in.
	Measures measure.System

	keeping func() []keeping.Advice
	// read are its lines.
	read []*line
	// lines are those read with the same table, measures and choices.
	lines *lines
	// of is the saved version that it is of, where a Memory holds it.
	of keptKey
}

// Read reads recipe text as pasted and computes it. remembered are the
// household's by food phrase, corrections those of this recipe's lines; both may be
// nil. Text that is no recipe
// gives diagnostic.Faults that say what is wrong and where; smaller doubts are
// in Analysis.Recipe.Notes.
func (k *Kitchen) Read(text string, remembered map[string]recipe.Correction, corrections []recipe.LineCorrection) (Analysis, error) {
	return k.read(recipe.ParseWith, text, remembered, corrections, newLines(), nil)
}

// lines are those read with one food table, measures and remembered choices.
type lines struct {
	read    recall.Memory[string, *ingredient.Reading]
	matched recall.Memory[string, *line]
	offered recall.Memory[string, *foodmatch.Matched] // those that rules put in
}

// line is an ingredient line with its food and grams, and how a method may speak of it.
type line struct {
	*method.Names
	look  sync.Once
	foods []household.LineFood
}

// seen are the line's foods as people's needs look at them; they are not to be changed.
func (l *line) seen(needs *household.Needs) []household.LineFood {
	l.look.Do(func() {
		l.foods = l.Line.Foods(0)
		needs.Look(l.foods)
	})
	return l.foods
}

func newLines() *lines {
	l := new(lines)
	l.read.Limit, l.matched.Limit, l.offered.Limit = keptLines, keptLines, keptLines
	return l
}

func (l *lines) reading(text string) ingredient.Reading {
	return *l.read.Of(text, func() *ingredient.Reading {
		r := ingredient.Read(text)
		return &r
	})
}

// weigh finds a line's food and grams; one with a correction of its own is not
// remembered.
func (l *lines) weigh(k *Kitchen, of *recipe.Line, remembered map[string]recipe.Correction) *line {
	anew := func() *line {
		m := foodmatch.WeighIn(k.Measures, of.Reading, k.Table, of.Fix, remembered)
		return &line{Names: method.NamesOf(&m)}
	}
	if of.Fix != nil {
		return anew()
	}
	return l.matched.Of(of.Reading.Text, anew)
}

// parser reads a text as a recipe with a reader of ingredient lines: one that is new by
// recipe.ParseWith, one that was saved by recipe.ParseKept.
type parser func(text string, read func(string) ingredient.Reading) (recipe.Recipe, error)

// read reads a text; on a sheet where one is given, and then the analysis is good until the
// sheet is used again.
func (k *Kitchen) read(parse parser, text string, remembered map[string]recipe.Correction, corrections []recipe.LineCorrection,
	known *lines, sheet *nutrient.Sheet) (Analysis, error) {
	rec, err := parse(text, known.reading)
	if err != nil {
		return Analysis{}, err
	}
	rec.Correct(corrections)
	return k.compute(rec, remembered, known, sheet), nil
}

// Compute matches and computes a recipe that was read before.
func (k *Kitchen) Compute(rec recipe.Recipe, remembered map[string]recipe.Correction) Analysis {
	return k.compute(rec, remembered, newLines(), nil)
}

func (k *Kitchen) compute(rec recipe.Recipe, remembered map[string]recipe.Correction, known *lines, sheet *nutrient.Sheet) Analysis {
	read, lines := make([]*line, len(rec.Lines)), make([]*method.Names, len(rec.Lines))
	for i := range rec.Lines {
		read[i] = known.weigh(k, &rec.Lines[i], remembered)
		lines[i] = read[i].Names
	}
	a := Analysis{Recipe: rec, Remembered: remembered, Table: k.Table, Measures: k.Measures, lines: known, read: read}
	a.Plan = k.Cooking.ReadNamed(rec.Steps, lines)
	if sheet == nil {
		sheet = new(nutrient.Sheet)
	}
	sheet.Clear(len(lines))
	for i, l := range lines {
		if rec.Lines[i].AtTable() {
			sheet.Line(lineID(i), l.Line, rec.Servings).AtTable = true
			continue
		}
		k.Cooking.PanelOn(sheet, lineID(i), a.Plan, i, l.Line, rec.Servings)
	}
	a.Pot = nutrient.Sum(sheet.Lines, rec.Servings).Finished(finishOf(rec, a.Plan))
	a.keeping = sync.OnceValue(func() []keeping.Advice { return k.Keeping.Advise(a.Keepable()) })
	return a
}

// Keeping is how the dish is kept and what its cooking must not leave out: looked
// up when it is asked for, as most figures are shown without it.
func (a Analysis) Keeping() []keeping.Advice {
	if a.keeping == nil {
		return nil
	}
	return a.keeping()
}

// Keepable is the dish as advice on keeping looks at it.
func (a Analysis) Keepable() keeping.Dish {
	return keeping.Dish{Steps: a.Recipe.Steps, Plan: a.Plan, Matched: a.Pot.Matched()}
}

// finishOf is what is known of the finished dish: the method's times, and what
// the recipe says it makes.
func finishOf(rec recipe.Recipe, p cooking.Plan) nutrient.Finish {
	return nutrient.Finish{Evaporated: p.Evaporated, Grams: rec.MakesGrams, Millilitres: rec.MakesMillilitres}
}

// reader reads one ingredient line as Compute would. A search tries the same few
// hundred texts again and again.
func (k *Kitchen) reader(a Analysis) swap.Reader {
	return func(text string) foodmatch.Matched {
		return *a.lines.offered.Of(text, func() *foodmatch.Matched {
			m := foodmatch.WeighIn(k.Measures, ingredient.Read(text), k.Table, nil, a.Remembered)
			return &m
		})
	}
}
