package pages

import (
	"fmt"
	"net/http"
	"strconv"

	"github.com/gin-gonic/gin"

	"potwright/internal/daybook"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// madePage is the times a dish was made, and the form for one more.
type madePage struct {
	frame
	RecipeBase, Dish string
	Wrong            messages
	Made             []madeView
	Version, Rating  pick
	Date             pick
	Remark           entry
}

// madeView is one time that a version was made.
type madeView struct {
	Day, Version, Rating, Remark, Remove string
	version                              int64
}

// Text is it in one line.
func (m madeView) Text() string {
	text := m.Day
	if m.Rating != "" {
		text += ": " + m.Rating
	}
	if m.Remark != "" {
		text += ". “" + m.Remark + "”"
	}
	return text
}

// madeOf are the times that a recipe's versions were made, the latest first.
func (s *Site) madeOf(c *gin.Context, o opened, vs []recipe.Version) ([]madeView, error) {
	list, err := s.store.ListMade(c.Request.Context(), o.household.ID, o.recipeID)
	if err != nil {
		return nil, err
	}
	numbers := map[int64]int{}
	for _, v := range vs {
		numbers[v.ID] = v.Number
	}
	var out []madeView
	for _, m := range list {
		out = append(out, madeView{Day: m.Date.Time().Format("2 January 2006"), Rating: m.Rating.Words(), Remark: m.Remark, version: m.VersionID,
			Version: fmt.Sprintf("version %d", numbers[m.VersionID]), Remove: fmt.Sprintf("%s/made/%d/remove", o.base, m.ID)})
	}
	return out, nil
}

// lastTimes is how many earlier times an adaptation is told of.
const lastTimes = 3

// lastRemarks are what was said the last times the dish was made, for whoever adapts
// it again.
func (s *Site) lastRemarks(c *gin.Context, o opened) ([]string, error) {
	list, err := s.madeOf(c, o, nil)
	if err != nil {
		return nil, err
	}
	var out []string
	for _, m := range list {
		if len(out) < lastTimes && (m.Remark != "" || m.Rating != "") {
			out = append(out, m.Text())
		}
	}
	return out, nil
}

func (s *Site) showMade(c *gin.Context) error {
	return s.showMadeForm(c, http.StatusOK, queryForm(c), nil)
}

func (s *Site) showMadeForm(c *gin.Context, status int, f form, wrong messages) error {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return err
	}
	vs, err := s.store.ListVersions(c.Request.Context(), o.household.ID, o.recipeID)
	if err != nil {
		return err
	}
	p := madePage{frame: o.frame, RecipeBase: o.base, Dish: o.frame.Title, Wrong: wrong, Date: s.whenForm(f).Date,
		Version: pick{Name: "version", Label: "Which version", Wrong: wrong.For("version")},
		Rating:  pick{Name: "rating", Label: "How it turned out", Options: options(f.text("rating"), "0", "nobody said")},
		Remark: entry{Name: "remark", Label: "What to remember", Hint: "Such as: too thin; ten minutes longer. The next adaptation shows it.", Value: f.text("remark"),
			Wrong: wrong.For("remark")}}
	p.Title = "When it was made"
	if p.Made, err = s.madeOf(c, o, vs); err != nil {
		return err
	}
	chosen := f.text("version")
	for i := len(vs) - 1; i >= 0; i-- {
		id := strconv.FormatInt(vs[i].ID, 10)
		p.Version.Options = append(p.Version.Options, option{id, fmt.Sprintf("version %d", vs[i].Number), id == chosen})
	}
	for r := daybook.MostRating; r > 0; r-- {
		value := strconv.Itoa(int(r))
		p.Rating.Options = append(p.Rating.Options, option{value, r.Words(), value == f.text("rating")})
	}
	return s.show(c, status, "made", p)
}

func (s *Site) saveMade(c *gin.Context) error {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return err
	}
	f, err := readForm(c)
	if err != nil {
		return err
	}
	id, err := strconv.ParseInt(f.text("version"), 10, 64)
	if err != nil {
		return kitchen.ErrNotFound
	}
	if o, err = s.openVersion(c, o, id); err != nil {
		return err
	}
	var wrong messages
	day, ok := readDay(f.text("date"))
	if !ok {
		wrong.add("date", "Choose a day of the list.")
	}
	rating, err := strconv.Atoi(f.text("rating"))
	if err != nil {
		wrong.add("rating", "Choose one of the list.")
	}
	m := daybook.Made{VersionID: id, Date: day, Rating: daybook.Rating(rating), Remark: printable(f.text("remark"))}
	if err := m.Check(); err != nil && len(wrong) == 0 {
		wrong.add("remark", "Write at most %d characters.", daybook.MostRemark)
	}
	if len(wrong) > 0 {
		return s.showMadeForm(c, http.StatusUnprocessableEntity, f, wrong)
	}
	if _, err := s.store.SaveMade(c.Request.Context(), o.household.ID, m); err != nil {
		return err
	}
	return seeOther(c, o.base+"/made?done=made")
}

func (s *Site) removeMade(c *gin.Context) error {
	o, err := s.findRecipe(c, "")
	if err != nil {
		return err
	}
	id, err := number(c, "made")
	if err != nil {
		return err
	}
	if err := s.store.DeleteMade(c.Request.Context(), o.household.ID, id); err != nil {
		return err
	}
	return seeOther(c, o.base+"/made?done=unmade")
}
