package kitchen

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"

	"potwright/internal/adaptation"
)

// Wish keeps wishes with a recipe as someone wants who saw others: what somebody else
// asked for in between stays, and AddNoMore as it is. Where both asked something else of the same, nothing is
// saved: ErrChanged, with the wishes there are now.
func Wish(ctx context.Context, store Store, householdID, recipeID int64, seen, wanted adaptation.Wishes) (adaptation.Wishes, error) {
	for range changeTries {
		now, err := store.Wishes(ctx, householdID, recipeID)
		if err != nil {
			return adaptation.Wishes{}, err
		}
		next, ok := mergedWishes(now, seen, wanted)
		if !ok {
			return now, ErrChanged
		}
		if err = store.SaveWishes(ctx, householdID, recipeID, next, MarkOf(now)); !errors.Is(err, ErrChanged) {
			return next, err
		}
	}
	return adaptation.Wishes{}, fmt.Errorf("wishes of recipe %d: %w", recipeID, ErrChanged)
}

func mergedWishes(now, seen, wanted adaptation.Wishes) (adaptation.Wishes, bool) {
	out := now
	out.Lock = mergedSet(now.Lock, seen.Lock, wanted.Lock)
	slices.Sort(out.Lock)
	var ok, aimOK, picksOK bool
	out.MaxChanges, ok = merged(now.MaxChanges, seen.MaxChanges, wanted.MaxChanges)
	out.Aim, aimOK = merged(now.Aim, seen.Aim, wanted.Aim)
	picksOK = mergePicks(&out, now, seen, wanted)
	torn := len(lockedAndWanted(out)) > max(len(lockedAndWanted(now)), len(lockedAndWanted(wanted)))
	return out, ok && aimOK && picksOK && !torn
}

// pickKey is a pick without its share.
type pickKey struct {
	line int
	rule string
}

// asked is what is asked of a rule on a line, if anything.
type asked struct {
	refused, insisted bool
	share             float64
}

func picksOf(w adaptation.Wishes) map[pickKey]asked {
	out := map[pickKey]asked{}
	for _, p := range w.Refuse {
		out[pickKey{p.Line, p.Rule}] = asked{refused: true, share: p.Share}
	}
	for _, p := range w.Insist {
		out[pickKey{p.Line, p.Rule}] = asked{insisted: true, share: p.Share}
	}
	return out
}

// mergePicks puts what is refused and insisted on into out, in the order of lines and
// rules. Whoever asks the same as before without a share means the one it had.
func mergePicks(out *adaptation.Wishes, now, seen, wanted adaptation.Wishes) (ok bool) {
	ours, before, theirs := picksOf(wanted), picksOf(seen), picksOf(now)
	all := maps.Clone(ours)
	maps.Copy(all, before)
	maps.Copy(all, theirs)
	keys := slices.Collect(maps.Keys(all))
	slices.SortFunc(keys, func(a, b pickKey) int { return cmp.Or(cmp.Compare(a.line, b.line), cmp.Compare(a.rule, b.rule)) })
	out.Refuse, out.Insist, ok = nil, nil, true
	for _, k := range keys {
		mine := ours[k]
		if was := before[k]; mine.share == 0 && mine.refused == was.refused && mine.insisted == was.insisted {
			mine = was
		}
		is, fine := merged(theirs[k], before[k], mine)
		ok = ok && fine
		p := adaptation.Pick{Line: k.line, Rule: k.rule, Share: is.share}
		if is.refused {
			out.Refuse = append(out.Refuse, p)
		}
		if is.insisted {
			out.Insist = append(out.Insist, p)
		}
	}
	return ok
}

// lockedAndWanted are lines that are locked and to be changed at once.
func lockedAndWanted(w adaptation.Wishes) (lines []int) {
	for _, p := range w.Insist {
		if slices.Contains(w.Lock, p.Line) {
			lines = append(lines, p.Line)
		}
	}
	return lines
}
