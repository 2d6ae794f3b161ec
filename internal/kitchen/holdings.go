package kitchen

import (
	"context"
	"slices"
	"time"

	"potwright/internal/adaptation"
	"potwright/internal/daybook"
	"potwright/internal/household"
	"potwright/internal/photo"
	"potwright/internal/product"
	"potwright/internal/recipe"
)

// Holdings is everything kept for one household. Ids in it only tie its parts
// together: lines to products ("own:7"), versions to their parents. A store that
// takes it in gives new ones.
type Holdings struct {
	Household household.Household
	// Choices are the remembered corrections by food phrase.
	Choices  map[string]recipe.Correction
	Products []product.Product
	// Recipes stand in the order in which their newest versions were saved.
	Recipes []HeldRecipe
	// Eaten is what members ate and plan to eat of foods; of dishes it stands with the
	// recipe.
	Eaten []daybook.Entry
	// Refusals are the ids of the swap rules never to be suggested.
	Refusals []string
	// Album has the files of the photos; nil where each photo has its own.
	Album Album
}

// Album is where the files of photos lie, so that never more than one is in memory at
// once: they outweigh everything else a household keeps.
type Album interface {
	// Picture gives the files of a photo by its digest; ErrNotFound where it is gone.
	Picture(ctx context.Context, digest string) (photo.Picture, error)
}

// Picture is a photo of the holdings with its files.
func (h Holdings) Picture(ctx context.Context, p photo.Photo) (photo.Picture, error) {
	if h.Album == nil {
		return p.Picture, nil
	}
	return h.Album.Picture(ctx, p.Digest)
}

// HeldRecipe is a recipe with all its versions, the oldest first.
type HeldRecipe struct {
	Title     string
	CreatedAt time.Time
	Wishes    *adaptation.Wishes // nil where none were kept
	Tags      []string
	Versions  []recipe.Version
	Daybook   Daybook
	// Photos are without their files where the holdings have an album.
	Photos []photo.Photo
}

// Daybook is what is written down of a recipe's versions, each named by its id.
type Daybook struct {
	Eaten   []daybook.Entry     `json:"eaten"`
	Freezer []daybook.Container `json:"freezer"`
	Made    []daybook.Made      `json:"made"`
}

// Empty reports whether nothing is written down.
func (d Daybook) Empty() bool { return len(d.Eaten)+len(d.Freezer)+len(d.Made) == 0 }

// Renamed names versions by other ids; one that has none becomes 0.
func (d Daybook) Renamed(ids map[int64]int64) Daybook {
	out := Daybook{slices.Clone(d.Eaten), slices.Clone(d.Freezer), slices.Clone(d.Made)}
	for i := range out.Eaten {
		out.Eaten[i].VersionID = ids[out.Eaten[i].VersionID]
	}
	for i := range out.Freezer {
		out.Freezer[i].VersionID = ids[out.Freezer[i].VersionID]
	}
	for i := range out.Made {
		out.Made[i].VersionID = ids[out.Made[i].VersionID]
	}
	return out
}

// Shared is the recipe alone, as another household may have it: with the products
// its lines are tied to and the photos that may be on its card, and without what the
// household is about: names, plates, wishes, choices and the daybook stay at home.
func (h Holdings) Shared(r HeldRecipe) Holdings {
	versions := make([]recipe.Version, len(r.Versions))
	tied := map[string]bool{}
	for i, v := range r.Versions {
		v.PlatesJSON = ""
		changes := make([]recipe.Change, len(v.Changes))
		for j, c := range v.Changes {
			c.For = nil
			changes[j] = c
		}
		v.Changes = changes
		versions[i] = v
		for _, c := range v.Corrections {
			tied[c.FoodID] = true
		}
	}
	photos := photo.OnCards(r.Photos)
	if len(photos) > 0 {
		photos[0].Main = true // the one that stood for the dish may stay at home
	}
	out := Holdings{Album: h.Album, Recipes: []HeldRecipe{{Title: r.Title, CreatedAt: r.CreatedAt, Versions: versions, Photos: photos}}}
	for _, p := range h.Products {
		if tied[p.FoodID()] {
			out.Products = append(out.Products, p)
		}
	}
	return out
}
