package daybook

import (
	"fmt"
	"slices"
	"strings"

	"potwright/internal/spread"
)

// Container is one container in the freezer.
type Container struct {
	ID int64 `json:"-"`
	// VersionID is the saved version that is in it.
	VersionID int64 `json:"version"`
	// Title is the dish's name as it was then.
	Title string `json:"title"`
	// Portion is the share of a serving that it holds.
	Portion float64 `json:"portion"`
	// Grams is what it holds; the zero range where that is not known.
	Grams spread.Range `json:"grams"`
	// Frozen is the day it was put in, BestBy the last day by the advice on keeping,
	// "" where none is known; Out the day it was taken out, "" while it is there.
	Frozen Date `json:"frozen"`
	BestBy Date `json:"best_by,omitempty"`
	Out    Date `json:"out,omitempty"`
}

// Check says what keeps the container from being written down.
func (c Container) Check() error {
	if c.VersionID == 0 || !(c.Portion > 0) {
		return fmt.Errorf("container %q: expected a saved version and a portion above 0", c.Title)
	}
	if _, err := ParseDate(string(c.Frozen)); err != nil {
		return fmt.Errorf("container %q: %w", c.Title, err)
	}
	for _, d := range []Date{c.BestBy, c.Out} {
		if _, err := ParseDate(string(d)); d != "" && err != nil {
			return fmt.Errorf("container %q: %w", c.Title, err)
		}
	}
	return nil
}

// PastBest reports whether the day of the advice is over.
func (c Container) PastBest(today Date) bool { return c.BestBy != "" && c.BestBy < today }

// Shelf is containers that are alike: of one version, as full, frozen on one day.
type Shelf struct {
	Container         // the first of them
	IDs       []int64 // all of them
}

// Shelves are the containers still in the freezer, those alike together: the one to
// be eaten first is first, those without a day are last.
func Shelves(cs []Container) []Shelf {
	var out []Shelf
	for _, c := range cs {
		if c.Out != "" {
			continue
		}
		i := slices.IndexFunc(out, func(s Shelf) bool {
			return s.VersionID == c.VersionID && s.Portion == c.Portion && s.Frozen == c.Frozen && s.BestBy == c.BestBy
		})
		if i < 0 {
			out = append(out, Shelf{c, nil})
			i = len(out) - 1
		}
		out[i].IDs = append(out[i].IDs, c.ID)
	}
	slices.SortStableFunc(out, func(a, b Shelf) int {
		if (a.BestBy == "") != (b.BestBy == "") {
			return -strings.Compare(string(a.BestBy), string(b.BestBy))
		}
		return strings.Compare(string(a.BestBy)+string(a.Frozen), string(b.BestBy)+string(b.Frozen))
	})
	return out
}
