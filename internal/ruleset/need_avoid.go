package ruleset

import (
	"fmt"
	"slices"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

func avoidLists() []string { return []string{"US nine", "EU fourteen", "choice", "medicine"} }

func (r *needReader) avoidFile(top value) {
	m := top.mapping("avoidances")
	seen := map[string]bool{}
	includes := map[string]value{}
	for _, v := range m.need("avoidances").list() {
		before := len(v.src.faults)
		rule := r.avoidRule(v, seen)
		if v.src.sound(before, kitchen.AvoidedFood, rule.ID, v.line()) {
			r.book.Avoid = append(r.book.Avoid, rule)
			includes[rule.ID] = v.mapping().get("includes")
		}
	}
	all := r.book.Avoid
	if r.base != nil {
		all = byID(r.base.Avoid, r.book.Avoid, avoidID)
	}
	ids := make([]string, len(all))
	for i, a := range all {
		ids[i] = a.ID
	}
	for _, a := range r.book.Avoid {
		for _, v := range includes[a.ID].list() {
			v.word("avoidance", ids)
		}
	}
	wordsOnce(top, all)
}

func (r *needReader) avoidRule(v value, seen map[string]bool) household.AvoidRule {
	m := v.mapping(signKeys("id", "title", "also", "lists", "includes", "stands", "says_free", "note", "source")...)
	a := household.AvoidRule{
		ID: r.id(m, seen), Title: m.need("title").text(), Also: m.get("also").texts(),
		Lists: m.need("lists").words("list", avoidLists()), Includes: m.get("includes").texts(),
		Signs: r.signs(m), SaysFree: m.get("says_free").texts(), Note: m.get("note").text(),
		Source: m.need("source").text(), Line: v.line(),
	}
	if len(a.Kinds)+len(a.Foods)+len(a.Words)+len(a.Includes) == 0 {
		v.fault("nothing to know it by", "kinds, foods, words or includes")
	}
	a.Stands = r.carriers(m.get("stands"))
	return a
}

// wordsOnce reports a name that two avoidances claim: a member's word must mean
// one thing.
func wordsOnce(top value, all []household.AvoidRule) {
	owner := map[string]string{}
	for _, a := range all {
		for _, w := range slices.Compact(append([]string{a.ID}, a.Also...)) {
			if first, taken := owner[w]; taken && first != a.ID {
				top.fault(fmt.Sprintf("the word %q belongs to %s and to %s", w, first, a.ID), "a word of its own for each avoidance")
			}
			owner[w] = a.ID
		}
	}
}
