package pages

import (
	"fmt"
	"net/http"
	"net/url"
	"strconv"

	"github.com/gin-gonic/gin"

	"potwright/internal/daybook"
	"potwright/internal/household"
	"potwright/internal/keeping"
	"potwright/internal/kitchen"
	"potwright/internal/spread"
)

// freezerPage is what is in the freezer, what to eat first at the top.
type freezerPage struct {
	frame
	Shelves  []shelfView
	Reminder string
	// Quality is what the day on a container is about.
	Quality string
}

// shelfView is containers that are alike.
type shelfView struct {
	Title, Link, Count, Holds, Frozen, BestBy string
	// Past is what is said of a container after its day.
	Past string
}

// aboutBestBy is what the days on frozen containers are about, by USDA FSIS, Freezing
// and Food Safety (from memory): they are about quality.
const aboutBestBy = "The best-by day of a frozen dish is about its quality, and counts only while the freezer holds 0 °F (−18 °C): USDA FSIS, Freezing and Food Safety."

const pastBestBy = "Its best-by day is over. No page can tell whether it may still be eaten: look at how it was kept, and when in doubt, throw it out (USDA FSIS)."

func (s *Site) showFreezer(c *gin.Context) error {
	h, fr, err := s.household(c, "day", "In the freezer")
	if err != nil {
		return err
	}
	cs, err := s.store.ListContainers(c.Request.Context(), h.ID)
	if err != nil {
		return err
	}
	fr.Caution = true
	p := freezerPage{frame: fr, Reminder: keeping.Reminder, Quality: aboutBestBy}
	for _, shelf := range daybook.Shelves(cs) {
		p.Shelves = append(p.Shelves, newShelfView(fr.Base, shelf, s.today()))
	}
	return s.show(c, http.StatusOK, "stock", p)
}

func newShelfView(base string, shelf daybook.Shelf, today daybook.Date) shelfView {
	v := shelfView{Title: shelf.Title, Link: fmt.Sprintf("%s/freezer/%d", base, shelf.IDs[0]), Count: countWords(len(shelf.IDs), "container", "containers"),
		Holds: containerHolds(shelf.Container), Frozen: dayWords(shelf.Frozen), BestBy: "not known"}
	if shelf.BestBy != "" {
		v.BestBy = dayWords(shelf.BestBy)
	}
	if shelf.PastBest(today) {
		v.Past = pastBestBy
	}
	return v
}

func containerHolds(c daybook.Container) string {
	text := portionWords(c.Portion)
	if c.Grams.Mid > 0 {
		text += ", " + rangeWords(c.Grams, "g")
	}
	return text
}

// putInFreezer writes the containers of the portions page down.
func (s *Site) putInFreezer(c *gin.Context) error {
	f, err := readForm(c)
	if err != nil {
		return err
	}
	o, err := s.findRecipe(c, "")
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
	count, ok := numberIn(&wrong, "count", f.text("count"), bounds{Low: 1, High: mostContainers, Whole: true, Example: "4"})
	if f.text("count") == "" {
		wrong.add("count", "Write how many containers, such as 4.")
	}
	size, sized := numberIn(new(messages), "size", f.text("size"), bounds{Low: 0.05, High: 100000, Example: "1"})
	share := spread.Range{}
	if sized {
		share, sized = o.analysis.ShareOf(kitchen.Dividing(f.text("by")), size)
	}
	if !ok || !sized {
		return s.showPortionsForm(c, o, f, wrong)
	}
	frozen, ok := readDay(f.text("made"))
	if !ok {
		frozen = s.today()
	}
	box := o.analysis.Container(o.version, dishTitle(o), share, frozen)
	boxes := make([]daybook.Container, int(count))
	for i := range boxes {
		boxes[i] = box
	}
	if _, err := s.store.PutIn(c.Request.Context(), o.household.ID, boxes); err != nil {
		return err
	}
	return seeOther(c, o.frame.Base+"/freezer?done=frozen")
}

// takeOutPage takes one container out of the freezer.
type takeOutPage struct {
	frame
	Self  string
	Wrong messages
	// Seen is the version that is in the container.
	Seen  int64
	Shelf shelfView
	Seats []seat
	When  whenForm
}

func (s *Site) openContainer(c *gin.Context) (household.Household, frame, daybook.Container, error) {
	h, fr, err := s.household(c, "day", "")
	if err != nil {
		return h, fr, daybook.Container{}, err
	}
	id, err := number(c, "cid")
	if err != nil {
		return h, fr, daybook.Container{}, err
	}
	box, err := s.store.FindContainer(c.Request.Context(), h.ID, id)
	if err == nil && box.Out != "" {
		err = kitchen.ErrNotFound
	}
	fr.Title, fr.Caution = "Take out: "+box.Title, true
	return h, fr, box, err
}

func (s *Site) showTakeOut(c *gin.Context) error {
	h, fr, box, err := s.openContainer(c)
	if err != nil {
		return err
	}
	return s.showTakeOutForm(c, http.StatusOK, h, fr, box, form{values: map[string][]string{"seated": {"1"}}}, nil)
}

func (s *Site) showTakeOutForm(c *gin.Context, status int, h household.Household, fr frame, box daybook.Container, f form, wrong messages) error {
	p := takeOutPage{frame: fr, Self: fmt.Sprintf("%s/freezer/%d", fr.Base, box.ID), Wrong: wrong, Seen: box.VersionID,
		Shelf: newShelfView(fr.Base, daybook.Shelf{Container: box, IDs: []int64{box.ID}}, s.today()), When: s.whenForm(f)}
	seen := wrong
	p.Seats, _ = readHelpings(h, f, household.MaxPortion, &seen)
	for i := range p.Seats {
		p.Seats[i].Portion.Hint = "Empty: the container, shared by all who are ticked."
		p.Seats[i].Portion.Unit = "servings"
	}
	return s.show(c, status, "takeout", p)
}

// takeOut takes a container out, and writes down who eats it where anyone is ticked.
func (s *Site) takeOut(c *gin.Context) error {
	f, err := readForm(c)
	if err != nil {
		return err
	}
	h, fr, box, err := s.openContainer(c)
	if h.ID != 0 && goneFrom(err, f) {
		return s.containerGone(c, h, fr, f)
	}
	if err != nil {
		return err
	}
	var wrong messages
	_, helpings := readHelpings(h, f, household.MaxPortion, &wrong)
	var entries []daybook.Entry
	if len(helpings) > 0 {
		v, a, err := s.kitchen.Open(c.Request.Context(), h.ID, box.VersionID)
		if err != nil {
			return err
		}
		for _, t := range helpings {
			share := t.typed
			if share == 0 {
				share = box.Portion / float64(len(helpings))
			}
			e := when(f, onlyFirst(&wrong, len(entries)), s.kitchen.DishEntry(h, t.member, v, a, spread.Exact(share)))
			entries = append(entries, e)
		}
	}
	if len(wrong) > 0 {
		return s.showTakeOutForm(c, http.StatusUnprocessableEntity, h, fr, box, f, wrong)
	}
	err = s.store.TakeOut(c.Request.Context(), h.ID, box.ID, s.today(), entries)
	if goneFrom(err, f) {
		return s.containerGone(c, h, fr, f)
	}
	if err != nil {
		return err
	}
	return seeOther(c, fr.Base+"/freezer?done=takenout")
}

// containerGone tells that a container is out already, and keeps who was to eat it.
func (s *Site) containerGone(c *gin.Context, h household.Household, fr frame, f form) error {
	e := when(f, new(messages), daybook.Entry{})
	if e.Date == "" {
		e.Date = s.today()
	}
	var kept []string
	again := url.Values{"date": {string(e.Date)}, "meal": {string(e.Meal)}, "state": {string(e.State)}, "version": {f.text("seen")}, "seated": {"1"}}
	_, helpings := readHelpings(h, f, household.MaxPortion, new(messages))
	for _, to := range helpings {
		id := strconv.FormatInt(to.member.ID, 10)
		again.Add("m", id)
		again.Set("p"+id, f.text("p"+id))
		kept = append(kept, "for "+to.member.Name)
	}
	return s.showGone(c, gonePage{frame: fr, Says: "This container was taken out already, and nothing more was written down.", Kept: append(kept, timeWords(e)...),
		Again: action{fr.Base + "/day/dish?" + again.Encode(), "Write the dish down for the day"}, Back: action{fr.Base + "/freezer", "Open the freezer"}})
}
