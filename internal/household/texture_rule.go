package household

// Level is one level of the IDDSI framework as far as a kitchen needs it: the
// published numbers, in our own words. Potwright is not affiliated with IDDSI.
type Level struct {
	Level int
	Title string
	// Adult and Child are the largest pieces; zero where no piece may be left
	// (levels 3 and 4) or none is too large (level 7).
	Adult, Child Piece
	// Smooth is true where no piece may be left.
	Smooth bool
	Test   string // the check at the table
	// Plate is what is done to this person's portion.
	Plate string
	// DoneBy are words of a step that do it to the whole dish.
	DoneBy []string
	Source string
}

// Piece is the largest piece of a level, mm; 0 where there is no figure.
type Piece struct{ Width, Length float64 }

// Feature is something about food that a texture need may rule out.
type Feature struct {
	ID    string
	Title string
	// UpTo is the highest level that it breaks on its own account; at level 7 only
	// features listed for the person count.
	UpTo     int
	Carriers []FeatureCarrier
	// GoneBy are words of the line or of a step that take it away; GoneAfter are
	// minutes of simmering or baking that do, 0 where none do.
	GoneBy    []string
	GoneAfter int
	// PlateFixes is true where what a level asks of the portion takes it away too.
	PlateFixes bool
	Remedy     string
	// Mixed marks the feature of the whole dish: thin liquid with pieces in it.
	Mixed bool
	// Dish are words of the method by which the finished dish has the feature
	// (\"muffin tin\"), whatever its ingredients; NotDish those by which it has not.
	Dish, NotDish []string
	// SmoothToo is true where foods without pieces can have it: honey is sticky.
	SmoothToo bool
	Source    string
}

// FeatureCarrier is a food that has a feature; Maybe where only some do.
type FeatureCarrier struct {
	Signs
	Maybe bool
}

type feature struct {
	Feature
	carriers []featureCarrier
	goneBy   phrases
	// gone, dish and notDish are GoneBy, Dish and NotDish in steps.
	gone, dish, notDish phraseSet
}

type featureCarrier struct {
	signs
	maybe bool
}

func newFeature(f Feature, inSteps *lexicon) feature {
	out := feature{Feature: f, goneBy: newPhrases(f.GoneBy)}
	out.gone, out.dish, out.notDish = inSteps.add(out.goneBy), inSteps.add(newPhrases(f.Dish)), inSteps.add(newPhrases(f.NotDish))
	for _, c := range f.Carriers {
		out.carriers = append(out.carriers, featureCarrier{newSigns(c.Signs), c.Maybe})
	}
	return out
}
