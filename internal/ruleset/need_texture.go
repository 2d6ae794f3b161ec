package ruleset

import (
	"fmt"
	"strconv"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

func (r *needReader) textureFile(top value) {
	m := top.mapping("levels", "smooth", "thin", "features")
	seen := map[int]bool{}
	for _, v := range r.part(m, "levels").list() {
		before := len(v.src.faults)
		l := r.level(v)
		if seen[l.Level] && l.Level > 0 {
			v.fault(fmt.Sprintf("level %d is written twice", l.Level), "one of each")
		}
		seen[l.Level] = true
		if v.src.sound(before, kitchen.Texture, strconv.Itoa(l.Level), v.line()) {
			r.book.Levels = append(r.book.Levels, l)
		}
	}
	for l := household.MinTextureLevel; l <= household.MaxTextureLevel; l++ {
		if !seen[l] && r.base == nil {
			m.get("levels").fault(fmt.Sprintf("level %d is missing", l), "every level from 3 to 7")
		}
	}
	r.book.Smooth = r.someSigns(r.part(m, "smooth").mapping(signKeys()...))
	r.book.Thin = r.someSigns(r.part(m, "thin").mapping(signKeys()...))
	ids := map[string]bool{}
	for _, v := range r.part(m, "features").list() {
		before := len(v.src.faults)
		if f := r.feature(v, ids); v.src.sound(before, kitchen.Texture, f.ID, v.line()) {
			r.book.Features = append(r.book.Features, f)
		}
	}
}

func (r *needReader) level(v value) household.Level {
	m := v.mapping("level", "title", "smooth", "adult", "child", "test", "plate", "done_by", "source")
	return household.Level{
		Level: m.need("level").whole(household.MinTextureLevel, household.MaxTextureLevel),
		Title: m.need("title").text(), Smooth: m.get("smooth").yes(),
		Adult: piece(m.get("adult")), Child: piece(m.get("child")),
		Test: m.need("test").text(), Plate: m.get("plate").text(),
		DoneBy: m.get("done_by").texts(), Source: m.need("source").text(),
	}
}

func piece(v value) household.Piece {
	if v.absent() {
		return household.Piece{}
	}
	m := v.mapping("width_mm", "length_mm")
	return household.Piece{Width: m.need("width_mm").positive(100), Length: m.need("length_mm").positive(100)}
}

func (r *needReader) feature(v value, seen map[string]bool) household.Feature {
	m := v.mapping("id", "title", "up_to", "carriers", "gone_by", "gone_after", "plate_fixes", "remedy", "mixed", "smooth_too", "dish", "not_dish", "source")
	f := household.Feature{
		ID: r.id(m, seen), Title: m.need("title").text(),
		UpTo:   m.need("up_to").whole(household.MinTextureLevel, household.MaxTextureLevel),
		GoneBy: m.get("gone_by").texts(), GoneAfter: m.get("gone_after").whole(0, 24*60),
		PlateFixes: m.get("plate_fixes").yes(), Remedy: m.need("remedy").text(),
		Dish: m.get("dish").texts(), NotDish: m.get("not_dish").texts(),
		Mixed: m.get("mixed").yes(), SmoothToo: m.get("smooth_too").yes(), Source: m.need("source").text(),
	}
	if f.ID != "" {
		m.get("id").word("texture feature", textureFeatures())
	}
	for _, c := range m.get("carriers").list() {
		cm := c.mapping(signKeys("maybe")...)
		f.Carriers = append(f.Carriers, household.FeatureCarrier{Signs: r.someSigns(cm), Maybe: cm.get("maybe").yes()})
	}
	if len(f.Carriers) == 0 && !f.Mixed {
		v.fault("no food carries it", "carriers")
	}
	return f
}
