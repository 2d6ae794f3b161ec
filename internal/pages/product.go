package pages

import (
	"errors"
	"fmt"
	"net/http"
	"slices"

	"github.com/gin-gonic/gin"

	"potwright/internal/composition"
	"potwright/internal/diagnostic"
	"potwright/internal/foodmatch"
	"potwright/internal/kitchen"
	"potwright/internal/product"
)

// pantryPage lists the household's own products.
type pantryPage struct {
	frame
	Products []productRow
}

// productRow is one product as the page tells it.
type productRow struct {
	Link, Name string
	Lines      []string
	// Wrong is why its label no longer reads, Doubts what to look at again.
	Wrong  string
	Doubts []string
	Claims *claimsView
}

// productPage is one label's form.
type productPage struct {
	frame
	Self, RemoveLink string
	Form             productForm
	// Seen is the mark of the label that the form was made from, "" for a new one.
	Seen      string
	Collision *collision
}

func (s *Site) registerPantry(h *gin.RouterGroup) {
	h.GET("/pantry", s.do(s.showPantry))
	h.GET("/pantry/new", s.do(s.showNewProduct))
	h.POST("/pantry/new", s.do(s.saveProduct))
	h.GET("/pantry/:pid", s.do(s.showProduct))
	h.POST("/pantry/:pid", s.do(s.saveProduct))
	h.GET("/pantry/:pid/remove", s.do(s.askRemoveProduct))
	h.POST("/pantry/:pid/remove", s.do(s.removeProduct))
}

func (s *Site) showPantry(c *gin.Context) error {
	h, fr, err := s.household(c, "pantry", "Pantry")
	if err != nil {
		return err
	}
	stocked, err := s.kitchen.Pantry(c.Request.Context(), h.ID)
	if err != nil {
		return fmt.Errorf("list the pantry of household %d: %w", h.ID, err)
	}
	p := pantryPage{frame: fr}
	p.Caution = len(stocked) > 0
	for _, st := range stocked {
		p.Products = append(p.Products, newProductRow(fr, st))
	}
	return s.show(c, http.StatusOK, "pantry", p)
}

func newProductRow(fr frame, st kitchen.Stocked) productRow {
	row := productRow{Link: fmt.Sprintf("%s/pantry/%d", fr.Base, st.ID), Name: st.Label.Name}
	if st.Food == nil {
		row.Wrong = "This label does not read any more: open it and look at it again."
		return row
	}
	row.Lines = productLines(st.Food)
	for _, w := range st.Warnings {
		row.Doubts = append(row.Doubts, doubtWords(w))
	}
	if claims, ok := kitchen.FoodClaims(st.Food); ok {
		row.Claims = newClaimsView(claims)
	}
	return row
}

// pantryNutrients are told in the list, as far as the label says them.
func pantryNutrients() []composition.Nutrient {
	return []composition.Nutrient{composition.Energy, composition.Sodium, composition.Carbohydrate, composition.Protein}
}

// productLines tells a product's measures and main figures.
func productLines(f *composition.Food) []string {
	var out []string
	for _, m := range f.Measures {
		if m.Unit == "serving" || slices.Contains(product.Containers(), m.Unit) {
			out = append(out, fmt.Sprintf("a %s of %s g", m.Unit, figure(m.Grams/m.Amount)))
		}
	}
	for _, n := range pantryNutrients() {
		if r, ok := f.Per100g(n); ok {
			out = append(out, n.Name()+" in 100 g: "+rangeWords(r, n.Unit()))
		}
	}
	return append(out, "From "+f.Source)
}

// ownWords says where the figures of a line come from that stands for a product of
// the pantry.
func ownWords(m foodmatch.Matched) []string {
	var out []string
	for _, it := range m.Items {
		if it.Food != nil && it.Food.IsOwn() {
			out = append(out, "From "+it.Food.Source)
		}
	}
	return out
}

// doubtWords tells what to look at again.
func doubtWords(w diagnostic.Fault) string {
	s := "Please look again: " + w.Problem
	if w.Expected != "" {
		s += "; expected " + w.Expected
	}
	return s + "."
}

func (s *Site) showNewProduct(c *gin.Context) error {
	_, fr, err := s.household(c, "pantry", "A label for the pantry")
	if err != nil {
		return err
	}
	return s.show(c, http.StatusOK, "product", s.productPage(fr, 0, productTyped{Label: product.Label{Panel: product.US}}, nil))
}

// productOf finds the product of the address.
func (s *Site) productOf(c *gin.Context, title string) (fr frame, householdID int64, p product.Product, err error) {
	h, fr, err := s.household(c, "pantry", title)
	if err != nil {
		return fr, 0, p, err
	}
	id, err := number(c, "pid")
	if err != nil {
		return fr, 0, p, err
	}
	if p, err = s.store.FindProduct(c.Request.Context(), h.ID, id); err != nil {
		return fr, 0, p, fmt.Errorf("find product %d: %w", id, err)
	}
	if fr.Title == "" {
		fr.Title = p.Label.Name
	}
	return fr, h.ID, p, nil
}

func (s *Site) showProduct(c *gin.Context) error {
	fr, _, p, err := s.productOf(c, "")
	if err != nil {
		return err
	}
	page := s.productPage(fr, p.ID, productTyped{Label: p.Label}, nil)
	page.Seen = string(kitchen.MarkOf(p))
	return s.show(c, http.StatusOK, "product", page)
}

// saveProduct saves a new or changed label. The search button only asks for the
// same form again, with foods to choose from.
func (s *Site) saveProduct(c *gin.Context) error {
	f, err := readForm(c)
	if err != nil {
		return err
	}
	typed := readProductForm(f)
	var p product.Product
	h, fr, err := s.household(c, "pantry", "A label for the pantry")
	householdID := h.ID
	if err == nil && c.Param("pid") != "" {
		var of frame
		if of, _, p, err = s.productOf(c, ""); goneFrom(err, f) {
			return s.showProductGone(c, fr, typed)
		}
		fr = of
	}
	if err != nil {
		return err
	}
	if f.has("look") {
		page := s.productPage(fr, p.ID, typed, nil)
		page.Seen = f.text("seen")
		return s.show(c, http.StatusOK, "product", page)
	}
	wrong, err := s.keepProduct(c, householdID, product.Product{ID: p.ID, Label: typed.Label}, kitchen.Mark(f.text("seen")))
	if p.ID != 0 && goneFrom(err, f) {
		return s.showProductGone(c, fr, typed)
	}
	if errors.Is(err, kitchen.ErrChanged) {
		return s.showProductCollision(c, fr, householdID, p.ID, typed)
	}
	if err != nil {
		return err
	}
	if len(wrong) > 0 {
		page := s.productPage(fr, p.ID, typed, wrong)
		page.Seen = f.text("seen")
		return s.show(c, http.StatusUnprocessableEntity, "product", page)
	}
	return seeOther(c, fr.Base+"/pantry?done=product")
}

// showProductGone keeps what was typed of a label that someone else took out: sent
// again, it is a new one.
func (s *Site) showProductGone(c *gin.Context, fr frame, typed productTyped) error {
	page := s.productPage(fr, 0, typed, nil)
	page.Collision = &collision{Gone: "Someone else took this out of the pantry while you were writing. Everything you typed is still here and not saved: save it to put it in again."}
	return s.show(c, http.StatusConflict, "product", page)
}

// showProductCollision shows the label that someone else saved beside what was typed.
func (s *Site) showProductCollision(c *gin.Context, fr frame, householdID, id int64, typed productTyped) error {
	saved, err := s.store.FindProduct(c.Request.Context(), householdID, id)
	if err != nil {
		return fmt.Errorf("find product %d: %w", id, err)
	}
	if kitchen.MarkOf(saved.Label) == kitchen.MarkOf(typed.Label) {
		return seeOther(c, fr.Base+"/pantry?done=product")
	}
	page := s.productPage(fr, id, typed, nil)
	page.Seen = string(kitchen.MarkOf(saved))
	page.Collision = newCollision(page.Self, s.printedWords(saved.Label), s.printedWords(typed.Label))
	return s.show(c, http.StatusConflict, "product", page)
}

// keepProduct reads the label and saves it; what is wrong with it is a message by
// field.
func (s *Site) keepProduct(c *gin.Context, householdID int64, p product.Product, seen kitchen.Mark) (wrong messages, err error) {
	_, _, err = s.kitchen.ReadProduct(p.Label)
	var faults diagnostic.Faults
	if errors.As(err, &faults) {
		return productMessages(faults), nil
	}
	if err != nil {
		return nil, fmt.Errorf("read label: %w", err)
	}
	_, err = s.store.SaveProduct(c.Request.Context(), householdID, p, seen)
	if errors.Is(err, kitchen.ErrTaken) {
		wrong.add("name", "There is already a product of that name in the pantry; change that one, or add a word to this.")
		return wrong, nil
	}
	if err != nil {
		return nil, fmt.Errorf("save product: %w", err)
	}
	return nil, nil
}

// productMessages puts the faults of a label beside the fields of its form.
func productMessages(faults diagnostic.Faults) (wrong messages) {
	fields := map[string]string{"name": "name", "like": "like", "panel": "panel", "serving": "serving", "servings": "servings", "container": "container", "net": "net", "figures": "figures", "ingredients": "ingredients"}
	for _, f := range product.Fields() {
		fields[f.Key] = figurePrefix + f.Key
	}
	for _, f := range faults {
		field, ok := fields[f.Field]
		if !ok {
			field = "figures"
		}
		wrong.add(field, "%s; expected %s.", sentenceStart(f.Problem), f.Expected)
	}
	return wrong
}

func (s *Site) askRemoveProduct(c *gin.Context) error {
	fr, _, p, err := s.productOf(c, "")
	if err != nil {
		return err
	}
	fr.Title = "Take " + p.Label.Name + " out of the pantry?"
	return s.show(c, http.StatusOK, "productremove", removePage{fr, fmt.Sprintf("%s/pantry/%d/remove", fr.Base, p.ID), p.Label.Name})
}

func (s *Site) removeProduct(c *gin.Context) error {
	fr, householdID, p, err := s.productOf(c, "")
	if err != nil {
		return err
	}
	if err := s.store.DeleteProduct(c.Request.Context(), householdID, p.ID); err != nil {
		return fmt.Errorf("remove product: %w", err)
	}
	return seeOther(c, fr.Base+"/pantry?done=productgone")
}
