package pages

import (
	"fmt"
	"net/http"
	"slices"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/access"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/photo"
)

// cardPage is a recipe on one sheet of paper.
type cardPage struct {
	frame
	RecipeBase string
	Dish       dishView
	Version    string
	Figures    []figureRow
	// Allergens are those found; Absent those of which nothing was found.
	Allergens []allergenRow
	Absent    string
	Plates    []plateView
	Keeps     []string
	Basis     []string
	// Photos are those that a cook lets be seen outside the household.
	Photos []photoView
	// ShareLink is where links to this card are made, "" where none can be; Shared is
	// set on the card that such a link shows.
	ShareLink string
	Shared    bool
}

// allergenRow is what was found of one allergen.
type allergenRow struct {
	Name, Verdict string
	Texts         []string
}

// allergenList is the list of the labels the card goes by: the nine major food
// allergens of the US (21 USC 321(qq), FALCPA with the FASTER Act of 2021).
const allergenList = "US nine"

func (s *Site) showCard(c *gin.Context) error {
	o, err := s.openChosen(c)
	if err != nil {
		return err
	}
	p := s.newCardPage(o, s.kitchen.Check(o.analysis, o.household))
	photos, err := s.photosOf(c, o)
	if err != nil {
		return err
	}
	p.Photos = photoViews(photosBelow(o), p.Title, photo.OnCards(photos))
	if who, ok := access.CallerOf(c.Request.Context()); ok && who.May(access.ManageAccounts) == nil {
		p.ShareLink = fmt.Sprintf("%s/share?version=%d", o.base, o.version.ID)
	}
	return s.show(c, http.StatusOK, "cookcard", p)
}

// newCardPage fills the card; the report tells each plate.
func (s *Site) newCardPage(o opened, report kitchen.Report) cardPage {
	a := o.analysis
	p := cardPage{frame: o.frame, RecipeBase: o.base, Dish: newDishView(a),
		Version: fmt.Sprintf("Version %d, saved %s", o.version.Number, o.version.SavedAt.Format("2 January 2006"))}
	p.Title, p.Caution = dishTitle(o), true
	p.Figures = figureRows(a.Pot.Serving, mainNutrients())
	p.Allergens, p.Absent = s.allergens(o)
	p.Plates = s.finishedPlates(o, report)
	p.Keeps, p.Basis = keeps(o), a.Account().Basis
	return p
}

// allergens judges the dish for someone who would avoid the whole list, each
// allergen once: the worst that was found, with every line it was found in.
func (s *Site) allergens(o opened) (found []allergenRow, absent string) {
	var ids []string
	for _, r := range s.needs.AvoidRules() {
		if slices.Contains(r.Lists, allergenList) {
			ids = append(ids, r.ID)
		}
	}
	report := s.kitchen.Check(o.analysis, household.Household{Members: []household.Member{{Name: "anyone", Avoid: ids}}})
	var none []string
	for _, id := range ids {
		row, fit := allergenRow{Name: labelOf(id, s.words.avoid)}, household.Inside
		for _, f := range findingsOf(report, id) {
			fit = household.Worse(fit, f.Fit)
			row.Texts = append(row.Texts, whereFound(f)...)
		}
		if row.Verdict = avoidWords(fit); fit == household.Inside {
			none = append(none, row.Name)
		} else {
			found = append(found, row)
		}
	}
	return found, strings.Join(none, ", ")
}

// whereFound are the lines that hold it; where that is in doubt, the finding in words.
func whereFound(f household.Finding) (texts []string) {
	if f.Fit != household.Over {
		return []string{f.Text}
	}
	for _, share := range f.Shares {
		texts = append(texts, share.Text)
	}
	return texts
}

func findingsOf(report kitchen.Report, need string) []household.Finding {
	var out []household.Finding
	for _, plate := range report.Plates {
		for _, f := range plate.Verdict.Findings {
			if f.Kind == "avoid" && f.Need == need && f.Fit != household.Inside {
				out = append(out, f)
			}
		}
	}
	return out
}
