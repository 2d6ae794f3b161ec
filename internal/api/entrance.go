package api

import (
	"net/http"
	"strings"
	"time"

	"potwright/internal/access"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

func entranceOperations() []operation {
	const (
		account = ofHousehold + "/accounts/:account_id"
		links   = ofRecipe + "/links"
	)
	return []operation{
		{method: http.MethodGet, path: "/me", id: "whoAmI", summary: "What the token is of and what it may do", answer: callerAnswer{}, status: http.StatusOK, do: whoAmI},
		{method: http.MethodGet, path: ofHousehold + "/accounts", id: "listAccounts", summary: "Who has an account", answer: accountList{}, status: http.StatusOK, private: true, do: gated(listAccounts)},
		{method: http.MethodPost, path: ofHousehold + "/accounts", id: "createAccount", summary: "Make an account", body: accountBody{}, answer: accountAnswer{}, status: http.StatusCreated, changes: true, do: gated(createAccount)},
		{method: http.MethodPut, path: account, id: "saveAccount", summary: "Change an account's role or reset its passphrase, which signs it out everywhere", body: accountChange{}, status: http.StatusNoContent, changes: true, do: gated(saveAccount)},
		{method: http.MethodDelete, path: account, id: "deleteAccount", summary: "Drop an account; the last keeper stays", status: http.StatusNoContent, changes: true, do: gated(deleteAccount)},
		{method: http.MethodGet, path: ofHousehold + "/tokens", id: "listTokens", summary: "Tokens of clients, without what they are known by", answer: tokenList{}, status: http.StatusOK, private: true, do: gated(listTokens)},
		{method: http.MethodPost, path: ofHousehold + "/tokens", id: "createToken", summary: "Make a token for a client; it is told this once", body: tokenBody{}, answer: secretAnswer{}, status: http.StatusCreated, changes: true, do: gated(createToken)},
		{method: http.MethodDelete, path: ofHousehold + "/tokens/:token_id", id: "deleteToken", summary: "Revoke a token", status: http.StatusNoContent, changes: true, do: gated(deleteToken)},
		{method: http.MethodGet, path: links, id: "listLinks", summary: "Links that show a version to whoever has them", answer: linkList{}, status: http.StatusOK, private: true, do: gated(listLinks)},
		{method: http.MethodPost, path: links, id: "createLink", summary: "Share a version by a link; it is told this once", body: linkBody{}, answer: secretAnswer{}, status: http.StatusCreated, changes: true, do: gated(createLink)},
		{method: http.MethodDelete, path: links + "/:link_id", id: "deleteLink", summary: "Revoke a link", status: http.StatusNoContent, changes: true, do: gated(deleteLink)},
		{method: http.MethodGet, path: "/shared/:secret", id: "findShared", summary: "The dish that a link shows, and nothing of the household", answer: sharedAnswer{}, status: http.StatusOK, open: true, do: gated(findShared)},
	}
}

// gated hands an operation the gate that people come in by; not found where no
// accounts are kept.
func gated(do func(*request, *access.Gate) (any, error)) func(*request) (any, error) {
	return func(r *request) (any, error) {
		if r.api.cfg.Gate == nil {
			return nil, notFound("no accounts are kept here")
		}
		return do(r, r.api.cfg.Gate)
	}
}

// roleOf is the role that a body names.
func roleOf(named access.Role) (access.Role, error) {
	role, err := access.ParseRole(string(named))
	if err != nil {
		return "", unusable("role", "%s", err)
	}
	return role, nil
}

// callerAnswer is who asks. All is empty where no passphrase is set, so that everyone
// may do everything.
type callerAnswer struct {
	HouseholdID int64       `json:"household,omitempty"`
	Name        string      `json:"name,omitempty"`
	Role        access.Role `json:"role,omitempty"`
}

func whoAmI(r *request) (any, error) {
	c, _ := access.CallerOf(r.ctx)
	return callerAnswer{c.HouseholdID, c.Name, c.Role}, nil
}

// accountAnswer is one person's way in.
type accountAnswer struct {
	ID        int64       `json:"id"`
	Name      string      `json:"name"`
	Role      access.Role `json:"role"`
	CreatedAt time.Time   `json:"created_at"`
}

type accountList struct {
	Accounts []accountAnswer `json:"accounts"`
}

// accountBody is a new account.
type accountBody struct {
	Name       string      `json:"name"`
	Role       access.Role `json:"role"`
	Passphrase string      `json:"passphrase"`
}

// accountChange is what becomes of an account; what is left out stays.
type accountChange struct {
	Role       access.Role `json:"role,omitempty"`
	Passphrase string      `json:"passphrase,omitempty"`
}

func listAccounts(r *request, g *access.Gate) (any, error) {
	list, err := g.Store.ListAccounts(r.ctx, r.household.ID)
	out := accountList{[]accountAnswer{}}
	for _, a := range list {
		out.Accounts = append(out.Accounts, accountAnswer{a.ID, a.Name, a.Role, a.CreatedAt})
	}
	return out, err
}

func createAccount(r *request, g *access.Gate) (any, error) {
	b := *r.body.(*accountBody)
	role, err := roleOf(b.Role)
	if err != nil {
		return nil, err
	}
	if err := access.CheckPassphrase(b.Passphrase); err != nil {
		return nil, unusable("passphrase", "%s", err)
	}
	if err := access.CheckName(b.Name); err != nil {
		return nil, unusable("name", "%s", err)
	}
	a, err := g.Open(r.ctx, access.Account{HouseholdID: r.household.ID, Name: b.Name, Role: role}, b.Passphrase)
	return accountAnswer{a.ID, a.Name, a.Role, a.CreatedAt}, err
}

func saveAccount(r *request, g *access.Gate) (any, error) {
	b := *r.body.(*accountChange)
	if b.Passphrase != "" {
		if err := access.CheckPassphrase(b.Passphrase); err != nil {
			return nil, unusable("passphrase", "%s", err)
		}
	}
	if b.Role != "" {
		role, err := roleOf(b.Role)
		if err != nil {
			return nil, err
		}
		if err := g.Store.SetRole(r.ctx, r.household.ID, r.id("account_id"), role); err != nil {
			return nil, err
		}
	}
	if b.Passphrase == "" {
		return nil, nil
	}
	return nil, g.Reset(r.ctx, r.household.ID, r.id("account_id"), b.Passphrase)
}

func deleteAccount(r *request, g *access.Gate) (any, error) {
	return nil, g.Store.DeleteAccount(r.ctx, r.household.ID, r.id("account_id"))
}

// tokenAnswer is a client's token; UsedAt is left out where it was never used.
type tokenAnswer struct {
	ID        int64       `json:"id"`
	Name      string      `json:"name"`
	Role      access.Role `json:"role"`
	CreatedAt time.Time   `json:"created_at"`
	UsedAt    time.Time   `json:"used_at,omitzero"`
}

type tokenList struct {
	Tokens []tokenAnswer `json:"tokens"`
}

// tokenBody is the client a token is for, and what it may do.
type tokenBody struct {
	Name string      `json:"name"`
	Role access.Role `json:"role"`
}

// secretAnswer is what opens the door; it is not kept, and told this once.
type secretAnswer struct {
	Secret string `json:"secret"`
}

func listTokens(r *request, g *access.Gate) (any, error) {
	list, err := g.Store.ListTokens(r.ctx, r.household.ID)
	out := tokenList{[]tokenAnswer{}}
	for _, t := range list {
		out.Tokens = append(out.Tokens, tokenAnswer{t.ID, t.Name, t.Role, t.CreatedAt, t.UsedAt})
	}
	return out, err
}

func createToken(r *request, g *access.Gate) (any, error) {
	b := *r.body.(*tokenBody)
	role, err := roleOf(b.Role)
	if err != nil {
		return nil, err
	}
	if err := access.CheckName(b.Name); err != nil {
		return nil, unusable("name", "%s", err)
	}
	secret, err := g.MakeToken(r.ctx, r.household.ID, strings.TrimSpace(b.Name), role)
	return secretAnswer{secret}, err
}

func deleteToken(r *request, g *access.Gate) (any, error) {
	return nil, g.Store.DeleteToken(r.ctx, r.household.ID, r.id("token_id"))
}

// linkAnswer is a link to a version.
type linkAnswer struct {
	ID        int64     `json:"id"`
	Version   int64     `json:"version"`
	CreatedAt time.Time `json:"created_at"`
}

type linkList struct {
	Links []linkAnswer `json:"links"`
}

// linkBody is the version that a link shows.
type linkBody struct {
	Version int64 `json:"version"`
}

func listLinks(r *request, g *access.Gate) (any, error) {
	if _, err := r.store.FindRecipe(r.ctx, r.household.ID, r.id("recipe_id")); err != nil {
		return nil, err
	}
	list, err := g.Store.ListLinks(r.ctx, r.household.ID, r.id("recipe_id"))
	out := linkList{[]linkAnswer{}}
	for _, l := range list {
		out.Links = append(out.Links, linkAnswer{l.ID, l.VersionID, l.CreatedAt})
	}
	return out, err
}

func createLink(r *request, g *access.Gate) (any, error) {
	v, err := r.versionOf(r.body.(*linkBody).Version)
	if err != nil {
		return nil, err
	}
	secret, err := g.Share(r.ctx, access.Link{HouseholdID: r.household.ID, RecipeID: v.RecipeID, VersionID: v.ID})
	return secretAnswer{secret}, err
}

func deleteLink(r *request, g *access.Gate) (any, error) {
	return nil, g.Store.DeleteLink(r.ctx, r.household.ID, r.id("recipe_id"), r.id("link_id"))
}

// sharedAnswer is a dish as a link shows it.
type sharedAnswer struct {
	Title      string                  `json:"title"`
	Servings   float64                 `json:"servings"`
	Text       string                  `json:"text"`
	PerServing kitchen.Amounts         `json:"per_serving"`
	Keeping    kitchen.KeepingDocument `json:"keeping"`
	Caution    string                  `json:"caution"`
}

func findShared(r *request, g *access.Gate) (any, error) {
	l, err := g.Shared(r.ctx, r.gin.Param("secret"))
	if err != nil {
		return nil, err
	}
	_, a, err := r.kitchen.Open(r.ctx, l.HouseholdID, l.VersionID)
	if err != nil {
		return nil, err
	}
	doc := a.Document()
	return sharedAnswer{doc.Title, doc.Servings, recipe.Text(a.Recipe), doc.PerServing, doc.Keeping, doc.Caution}, nil
}
