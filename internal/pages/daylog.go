package pages

import (
	"fmt"
	"net/http"
	"slices"
	"strconv"

	"github.com/gin-gonic/gin"

	"potwright/internal/composition"
	"potwright/internal/daybook"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/portion"
	"potwright/internal/spread"
)

// logDishPage writes a dish down for everyone who eats of it.
type logDishPage struct {
	frame
	Self, Back string
	Wrong      messages
	Dish       pick
	By         pick
	When       whenForm
	Seats      []seat
	HasDishes  bool
}

// whenForm asks for the day, the meal and whether it was eaten.
type whenForm struct{ Date, Meal, State pick }

// Days on offer before and after today, to choose one without typing.
const (
	daysBack  = 7
	daysAhead = 13
)

func (s *Site) whenForm(f form) whenForm {
	chosen, today := s.dayOf(f), s.today()
	days := []daybook.Date{}
	for i := -daysBack; i <= daysAhead; i++ {
		days = append(days, today.Plus(i))
	}
	if !slices.Contains(days, chosen) {
		days = append(days, chosen)
		slices.Sort(days)
	}
	w := whenForm{Date: pick{Name: "date", Label: "Day"}, Meal: pick{Name: "meal", Label: "When"}, State: pick{Name: "state", Label: "It is"}}
	for _, d := range days {
		label := dayWords(d)
		if d == today {
			label += ", today"
		}
		w.Date.Options = append(w.Date.Options, option{string(d), label, d == chosen})
	}
	meal := f.text("meal")
	if meal == "" {
		meal = string(mealAt(s.now().Hour()))
	}
	for _, m := range daybook.Meals() {
		w.Meal.Options = append(w.Meal.Options, option{string(m), mealName(m), string(m) == meal})
	}
	state := f.text("state")
	if state == "" {
		state = string(daybook.Eaten)
		if chosen > today {
			state = string(daybook.Planned)
		}
	}
	w.State.Options = options(state, string(daybook.Eaten), "eaten", string(daybook.Planned), "planned")
	return w
}

// mealAt is the meal that an hour of the day is nearest to.
func mealAt(hour int) daybook.Meal {
	switch {
	case hour < 11:
		return daybook.Morning
	case hour < 16:
		return daybook.Midday
	default:
		return daybook.Evening
	}
}

// when reads what whenForm asks for into an entry.
func when(f form, wrong *messages, e daybook.Entry) daybook.Entry {
	day, ok := readDay(f.text("date"))
	if !ok {
		wrong.add("date", "Choose a day of the list.")
	}
	e.Date, e.Meal, e.State = day, daybook.Meal(f.text("meal")), daybook.State(f.text("state"))
	if !slices.Contains(daybook.Meals(), e.Meal) {
		wrong.add("meal", "Choose one of the list.")
	}
	if e.State != daybook.Planned && e.State != daybook.Eaten {
		wrong.add("state", "Choose one of the list.")
	}
	return e
}

// helping is how much a member takes; typed is empty for the usual portion.
type helping struct {
	member household.Member
	typed  float64
}

// readHelpings reads who eats and how much: m for each who does, pID for an amount
// other than usual. Without a word about it everyone does.
func readHelpings(h household.Household, f form, most float64, wrong *messages) (seats []seat, out []helping) {
	asked := f.has("seated")
	for _, m := range h.Members {
		id := strconv.FormatInt(m.ID, 10)
		field := "p" + id
		here := !asked || f.ticked("m", id)
		typed := f.text(field)
		amount, _ := numberIn(wrong, field, typed, bounds{Low: 0.05, High: most, Example: "0.5"})
		usual, _, _ := m.Portions()
		seats = append(seats, seat{Here: tick{Name: "m", Value: id, Label: m.Name, On: here},
			Portion: entry{Name: field, Label: "Amount for " + m.Name, Hint: "Empty: " + portionWords(usual) + ".", Value: typed,
				Wrong: wrong.For(field), Mode: "decimal"}})
		if here {
			out = append(out, helping{m, amount})
		}
	}
	return seats, out
}

// mostGramsEaten is the largest weight taken for one plate; more is a slip of the pen.
const mostGramsEaten = 5000

func mostHelping(by string) float64 {
	if by == "grams" {
		return mostGramsEaten
	}
	return household.MaxPortion
}

func (s *Site) showLogDish(c *gin.Context) error {
	return s.showLogDishForm(c, http.StatusOK, queryForm(c), nil)
}

func (s *Site) showLogDishForm(c *gin.Context, status int, f form, wrong messages) error {
	h, fr, err := s.household(c, "day", "A dish for the day")
	if err != nil {
		return err
	}
	p := logDishPage{frame: fr, Self: fr.Base + "/day/dish", Back: fr.Base + "/day?date=" + string(s.dayOf(f)), When: s.whenForm(f),
		By: pick{Name: "by", Label: "Amounts are in", Options: options(f.text("by"), "servings", "servings", "grams", "grams")}}
	seen := slices.Clone(wrong)
	p.Seats, _ = readHelpings(h, f, mostHelping(f.text("by")), &seen)
	p.Wrong = wrong
	p.Dish, err = s.dishPick(c, h, f.text("version"), wrong.For("version"))
	p.HasDishes = len(p.Dish.Options) > 0
	if err != nil {
		return err
	}
	return s.show(c, status, "logdish", p)
}

// dishPick chooses one of the household's dishes by its newest version; the version
// chosen may be an older one.
func (s *Site) dishPick(c *gin.Context, h household.Household, chosen, wrong string) (pick, error) {
	p := pick{Name: "version", Label: "Dish", Wrong: wrong}
	list, err := s.store.ListRecipes(c.Request.Context(), h.ID)
	if err != nil {
		return p, fmt.Errorf("list recipes of household %d: %w", h.ID, err)
	}
	known := false
	for _, r := range list {
		id := strconv.FormatInt(r.LatestID, 10)
		p.Options = append(p.Options, option{id, r.Title, id == chosen})
		known = known || id == chosen
	}
	id, err := strconv.ParseInt(chosen, 10, 64)
	if known || err != nil {
		return p, nil
	}
	v, a, err := s.kitchen.Open(c.Request.Context(), h.ID, id)
	if err != nil {
		return p, err
	}
	p.Options = append(p.Options, option{chosen, fmt.Sprintf("%s, version %d", a.Recipe.Title, v.Number), true})
	return p, nil
}

func (s *Site) logDish(c *gin.Context) error {
	h, fr, err := s.household(c, "day", "")
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
	v, a, err := s.kitchen.Open(c.Request.Context(), h.ID, id)
	if err != nil {
		return err
	}
	var wrong messages
	_, helpings := readHelpings(h, f, mostHelping(f.text("by")), &wrong)
	if len(helpings) == 0 {
		wrong.add("seats", "Tick at least one person.")
	}
	var entries []daybook.Entry
	for _, t := range helpings {
		share, _, _ := t.member.Portions()
		part := spread.Exact(share)
		switch {
		case t.typed > 0 && f.text("by") == "grams":
			known := false
			if part, known = portion.ShareOfGrams(a.Pot, t.typed); !known {
				wrong.add("by", "What the finished dish weighs is not known; count in servings.")
			}
		case t.typed > 0:
			part = spread.Exact(t.typed)
		}
		e := s.kitchen.DishEntry(h, t.member, v, a, part)
		if f.text("by") == "grams" && t.typed > 0 {
			e.Grams = spread.Exact(t.typed)
		}
		entries = append(entries, when(f, onlyFirst(&wrong, len(entries)), e))
	}
	if len(wrong) > 0 {
		return s.showLogDishForm(c, http.StatusUnprocessableEntity, f, wrong)
	}
	return s.keepEntries(c, h, fr, entries)
}

// onlyFirst collects what is wrong with what everyone shares once.
func onlyFirst(wrong *messages, at int) *messages {
	if at > 0 {
		return &messages{}
	}
	return wrong
}

func (s *Site) keepEntries(c *gin.Context, h household.Household, fr frame, entries []daybook.Entry) error {
	if _, err := s.store.AddEntries(c.Request.Context(), h.ID, entries); err != nil {
		return err
	}
	return seeOther(c, fmt.Sprintf("%s/day?date=%s&done=logged", fr.Base, entries[0].Date))
}

// logFoodPage writes a food down.
type logFoodPage struct {
	frame
	Self, Back string
	Wrong      messages
	Search     entry
	Searched   bool
	Found      []foundFood
	// Food is the one chosen, "" before that.
	Food, FoodID string
	Amount       entry
	Unit         pick
	When         whenForm
	Who          []tick
	Date, State  string
}

// foundFood is a food that the words may mean.
type foundFood struct{ Name, ID, Why string }

func (s *Site) showLogFood(c *gin.Context) error {
	return s.showLogFoodForm(c, http.StatusOK, queryForm(c), nil)
}

func (s *Site) showLogFoodForm(c *gin.Context, status int, f form, wrong messages) error {
	h, fr, err := s.household(c, "day", "A food for the day")
	if err != nil {
		return err
	}
	table, err := s.kitchen.Foods(c.Request.Context(), h.ID)
	if err != nil {
		return err
	}
	day := s.dayOf(f)
	p := logFoodPage{frame: fr, Self: fr.Base + "/day/food", Back: fr.Base + "/day?date=" + string(day), Wrong: wrong, Date: string(day), State: f.text("state"),
		Search: entry{Name: "q", Label: "Which food", Hint: "A few words: apple raw.", Value: f.text("q"), Mode: "search"}}
	if food, ok := table.ByID(f.text("food")); ok {
		p.Food, p.FoodID = food.Name, food.ID
		p.Amount = entry{Name: "amount", Label: "How much", Value: f.text("amount"), Wrong: wrong.For("amount"), Mode: "decimal"}
		p.Unit = unitPick(food, f.text("unit"))
		p.When = s.whenForm(f)
		for i, m := range h.Members {
			id := strconv.FormatInt(m.ID, 10)
			p.Who = append(p.Who, tick{Name: "m", Value: id, Label: m.Name, On: f.ticked("m", id) || !f.has("m") && i == 0})
		}
	} else if p.Searched = f.text("q") != ""; p.Searched {
		for _, food := range table.Search(f.text("q"), foundFoods) {
			found := foundFood{Name: food.Name, ID: food.ID}
			if food.IsOwn() {
				found.Why = "from your pantry"
			}
			p.Found = append(p.Found, found)
		}
	}
	return s.show(c, status, "logfood", p)
}

// unitPick offers grams and the food's own household measures.
func unitPick(food *composition.Food, chosen string) pick {
	p := pick{Name: "unit", Label: "Counted in", Options: []option{{"g", "grams", chosen == "g"}}}
	for i, m := range food.Measures {
		if m.Amount <= 0 || m.Grams <= 0 {
			continue
		}
		label := m.Unit
		if m.Qualifier != "" {
			label += ", " + m.Qualifier
		}
		value := strconv.Itoa(i)
		p.Options = append(p.Options, option{value, fmt.Sprintf("%s (%s g)", label, figure(m.Grams/m.Amount)), value == chosen})
	}
	return p
}

func (s *Site) logFood(c *gin.Context) error {
	h, fr, err := s.household(c, "day", "")
	if err != nil {
		return err
	}
	f, err := readForm(c)
	if err != nil {
		return err
	}
	table, err := s.kitchen.Foods(c.Request.Context(), h.ID)
	if err != nil {
		return err
	}
	food, ok := table.ByID(f.text("food"))
	if !ok {
		return kitchen.ErrNotFound
	}
	var wrong messages
	amount, ok := numberIn(&wrong, "amount", f.text("amount"), bounds{Low: 0.05, High: mostGramsEaten, Example: "100"})
	if !ok && len(wrong) == 0 {
		wrong.add("amount", "Write how much it was, such as 100.")
	}
	grams := spread.Exact(amount)
	if i, err := strconv.Atoi(f.text("unit")); err == nil && i >= 0 && i < len(food.Measures) && food.Measures[i].Amount > 0 {
		grams = kitchen.MeasuredGrams(food.Measures[i], amount)
	}
	var entries []daybook.Entry
	for _, m := range h.Members {
		if f.ticked("m", strconv.FormatInt(m.ID, 10)) {
			entries = append(entries, when(f, onlyFirst(&wrong, len(entries)), s.kitchen.FoodEntry(m, food, grams)))
		}
	}
	if len(entries) == 0 {
		wrong.add("who", "Tick at least one person.")
	}
	if len(wrong) > 0 {
		return s.showLogFoodForm(c, http.StatusUnprocessableEntity, f, wrong)
	}
	return s.keepEntries(c, h, fr, entries)
}
