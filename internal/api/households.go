package api

import (
	"errors"
	"fmt"
	"net/http"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// householdBody is a household as a caller sends it. A member with the id of one it
// has stays that member.
type householdBody struct {
	household.Household
}

// householdAnswer is a household as it is kept.
type householdAnswer struct {
	ID int64 `json:"id"`
	household.Household
}

type householdList struct {
	Households []householdAnswer `json:"households"`
}

func answerOf(h household.Household) householdAnswer { return householdAnswer{h.ID, h} }

// listHouseholds leaves out the households the caller may not see.
func listHouseholds(r *request) (any, error) {
	hs, err := r.store.ListHouseholds(r.ctx)
	if err != nil {
		return nil, fmt.Errorf("list households: %w", err)
	}
	out := householdList{Households: []householdAnswer{}}
	for _, h := range hs {
		switch err := r.api.cfg.Allow(r.gin.Request, h.ID, false); {
		case err == nil:
			out.Households = append(out.Households, answerOf(h))
		case !errors.Is(err, ErrNotAllowed) && !errors.Is(err, kitchen.ErrNotFound):
			return nil, err
		}
	}
	return out, nil
}

func findHousehold(r *request) (any, error) {
	return answerOf(r.household), nil
}

func createHousehold(r *request) (any, error) {
	h := r.body.(*householdBody).Household
	err := h.ValidateSettings()
	if len(h.Members) > 0 {
		err = h.Validate(r.api.cfg.Needs)
	}
	if err != nil {
		return nil, err
	}
	for _, m := range h.Members {
		if m.ID != 0 {
			return nil, unusable("members", "member %q has the id %d; a new household's members have none yet", m.Name, m.ID)
		}
	}
	h, err = r.store.CreateHousehold(r.ctx, h)
	if err != nil {
		return nil, err
	}
	r.gin.Header("Location", fmt.Sprintf("%s/households/%d", Base, h.ID))
	return answerOf(h), nil
}

func saveHousehold(r *request) (any, error) {
	was, h := r.household, r.body.(*householdBody).Household
	h.ID = was.ID
	if err := h.Validate(r.api.cfg.Needs); err != nil {
		return nil, err
	}
	known := map[int64]bool{0: true}
	for _, m := range was.Members {
		known[m.ID] = true
	}
	for _, m := range h.Members {
		if !known[m.ID] {
			return nil, problem{Status: http.StatusUnprocessableEntity, Detail: fmt.Sprintf("member %q has the id %d, which nobody of this household has; expected one of theirs, or 0 for somebody new", m.Name, m.ID)}
		}
	}
	over, err := r.over(was)
	if err != nil {
		return nil, err
	}
	if h, err = r.store.SaveHousehold(r.ctx, h, over); err != nil {
		return nil, err
	}
	return answerOf(h), nil
}
