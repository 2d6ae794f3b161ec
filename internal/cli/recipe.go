package cli

import (
	"context"
	"flag"
	"fmt"
	"slices"

	"potwright/internal/adaptation"
	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
)

// each runs do over every recipe named on the command line.
func (r *run) each(o options, do func(*kitchen.Kitchen, kitchen.Analysis) error) error {
	return r.eachFor(o, func(k *kitchen.Kitchen, a kitchen.Analysis, _ table) error { return do(k, a) })
}

func read(r *run) (int, error) {
	o, err := r.parseRecipes("read", false, nil)
	if err != nil {
		return exitDone, err
	}
	return exitDone, r.each(o, func(_ *kitchen.Kitchen, a kitchen.Analysis) error {
		if o.format == "json" {
			return r.json(a.Document())
		}
		return writeReading(r.out, a)
	})
}

func analyse(r *run) (int, error) {
	o, err := r.parseRecipes("analyse", false, nil)
	if err != nil {
		return exitDone, err
	}
	return exitDone, r.each(o, func(_ *kitchen.Kitchen, a kitchen.Analysis) error {
		if o.format == "json" {
			return r.json(a.Document())
		}
		return writeAnalysis(r.out, a)
	})
}

func check(r *run) (int, error) {
	if slices.Contains(r.args, "--certificate") {
		return proofs(r)
	}
	o, err := r.parseRecipes("check", true, nil)
	if err != nil {
		return exitDone, err
	}
	return r.judged(o, func(k *kitchen.Kitchen, a kitchen.Analysis, t table) (bool, error) {
		report := k.Check(a, t.household)
		if o.format == "json" {
			return report.Fits, r.json(report.Document(a))
		}
		return report.Fits, writeReport(r.out, a, report)
	})
}

func adapt(r *run) (int, error) {
	var w adaptation.Wishes
	var proof string
	o, err := r.parseRecipes("adapt", true, func(f *flag.FlagSet) {
		f.IntVar(&w.MaxChanges, "max-changes", 0, "change at most so many lines (0: no cap)")
		f.Func("lock", "an ingredient line, counted from 1, that must stay (may be repeated)", lineFlag(&w.Lock))
		f.Func("refuse", "a rule not wanted, as RULE or LINE:RULE (may be repeated)", pickFlag(&w.Refuse))
		f.StringVar(&proof, "certificate", "", "write the proof to this file, for check --certificate")
		f.Func("insist", "a rule to be used, as LINE:RULE (may be repeated)", pickFlag(&w.Insist))
	})
	if err != nil {
		return exitDone, err
	}
	w.Certificate = proof != ""
	if n := len(o.files) + len(o.recipes); w.Certificate && n > 1 {
		return exitDone, badInput("--certificate holds the proof of one recipe; %d are given", n)
	}
	return r.judged(o, func(k *kitchen.Kitchen, a kitchen.Analysis, t table) (bool, error) {
		if err := checkWishes(k, a, w); err != nil {
			return false, err
		}
		ans, err := k.Adapt(context.Background(), a, t.household, t.asked(w))
		if err != nil {
			return false, err
		}
		if w.Certificate {
			if err := writeCertificate(proof, ans); err != nil {
				return false, err
			}
		}
		if o.format == "json" {
			return settled(ans), r.json(kitchen.AdaptDocumentOf(ans))
		}
		return settled(ans), writeAnswer(r.out, a, ans)
	})
}

// judged runs do over every recipe for one household; the status says whether
// everyone was inside everywhere.
func (r *run) judged(o options, do func(*kitchen.Kitchen, kitchen.Analysis, table) (bool, error)) (int, error) {
	status := exitDone
	err := r.eachFor(o, func(k *kitchen.Kitchen, a kitchen.Analysis, t table) error {
		fits, err := do(k, a, t)
		if !fits {
			status = exitOutside
		}
		return err
	})
	return status, err
}

// checkWishes refuses picks of lines that the recipe does not have and of rules
// that the rulebook does not have.
func checkWishes(k *kitchen.Kitchen, a kitchen.Analysis, w adaptation.Wishes) error {
	lines := len(a.Recipe.Lines)
	for _, i := range w.Lock {
		if i >= lines {
			return badInput("--lock %d: the recipe has %d ingredient lines", i+1, lines)
		}
	}
	var ids []string
	for _, r := range k.Book.Rules() {
		ids = append(ids, r.ID)
	}
	for _, p := range append(append([]adaptation.Pick{}, w.Refuse...), w.Insist...) {
		if p.Line >= lines {
			return badInput("line %d of %d:%s: the recipe has %d ingredient lines", p.Line+1, p.Line+1, p.Rule, lines)
		}
		if !slices.Contains(ids, p.Rule) {
			return badInput("there is no rule %q%s", p.Rule, didYouMean(p.Rule, ids, "potwright rules lists them"))
		}
	}
	return nil
}

// didYouMean names what is near a word, else says where all are.
func didYouMean(word string, allowed []string, where string) string {
	if near := diagnostic.Nearest(word, allowed); near != "" {
		return fmt.Sprintf("; did you mean %q?", near)
	}
	return "; " + where
}

// settled reports whether everyone is inside and no label has to tell first.
func settled(ans adaptation.Answer) bool {
	for _, p := range ans.Plates {
		if len(p.Provided) > 0 {
			return false
		}
	}
	return ans.Fits
}
