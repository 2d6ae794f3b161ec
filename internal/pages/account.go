package pages

import (
	"errors"
	"fmt"
	"net/http"
	"time"

	"github.com/gin-gonic/gin"

	"potwright/internal/access"
)

// accountPage is one's own sign-ins and, for a keeper, who else may come in.
type accountPage struct {
	frame
	Wrong    messages
	Role     string
	Sessions []sessionView
	Old, New secret
	// The rest is for a keeper.
	Keeper   bool
	Accounts []accountView
	Tokens   []tokenView
	Name     entry
	RolePick pick
	First    secret
	Client   entry
	May      pick
	// Made is a token that was made just now: it is shown this once.
	Made string
}

type sessionView struct {
	ID           int64
	Device, Seen string
	This         bool
}

type accountView struct {
	ID         int64
	Name, Role string
	Self       bool
	RolePick   pick
	Passphrase secret
}

type tokenView struct {
	ID                          int64
	Name, Role, Since, LastUsed string
}

// registerAccount puts the account's page on the router, where accounts are kept.
func (s *Site) registerAccount(h *gin.RouterGroup) {
	if s.gate == nil {
		return
	}
	h.GET("/account", s.do(s.showAccount))
	h.POST("/account/passphrase", s.do(s.changePassphrase))
	h.POST("/account/sessions/:sid/end", s.do(s.endSession))
	h.POST("/accounts/new", s.do(s.addAccount))
	h.POST("/accounts/:aid", s.do(s.changeAccount))
	h.POST("/accounts/:aid/remove", s.do(s.removeAccount))
	h.POST("/tokens/new", s.do(s.makeToken))
	h.POST("/tokens/:tid/revoke", s.do(s.revokeToken))
}

// signedIn is the caller of a page that only someone with an account has.
func signedIn(c *gin.Context) (access.Caller, error) {
	who, ok := access.CallerOf(c.Request.Context())
	if !ok || who.AccountID == 0 {
		return who, access.ErrUnknown
	}
	return who, nil
}

const moment = "2 January 2006, 15:04"

func roleWords(r access.Role) string {
	switch r {
	case access.Keeper:
		return "keeper: everything, also people, accounts and links"
	case access.Cook:
		return "cook: recipes, adapting, the pantry and the day"
	case access.Eater:
		return "eater: reads, and writes down what was eaten"
	}
	return string(r)
}

func rolePick(name string, chosen access.Role, wrong string) pick {
	var pairs []string
	for _, r := range []access.Role{access.Eater, access.Cook, access.Keeper} {
		pairs = append(pairs, string(r), roleWords(r))
	}
	return pick{Name: name, Label: "May do", Options: options(string(chosen), pairs...), Wrong: wrong}
}

func (s *Site) showAccount(c *gin.Context) error {
	p, err := s.accountPage(c, form{}, nil)
	if err != nil {
		return err
	}
	return s.show(c, http.StatusOK, "account", p)
}

// accountPage fills the page, with what was typed and what is wrong with it.
func (s *Site) accountPage(c *gin.Context, f form, m messages) (accountPage, error) {
	who, err := signedIn(c)
	if err != nil {
		return accountPage{}, err
	}
	h, fr, err := s.household(c, "account", "Account of "+who.Name)
	if err != nil {
		return accountPage{}, err
	}
	p := accountPage{frame: fr, Wrong: m, Role: roleWords(who.Role), Keeper: who.May(access.ManageAccounts) == nil,
		Old:      secret{Name: "old", Label: "Passphrase so far", Auto: "current-password", Wrong: m.For("old")},
		New:      secret{Name: "new", Label: "New passphrase", Auto: "new-password", Wrong: m.For("new"), Hint: "At least 15 characters, such as four or five words."},
		Name:     entry{Name: "name", Label: "Name to sign in with", Value: f.text("name"), Wrong: m.For("name")},
		RolePick: rolePick("role", access.Role(f.text("role")), m.For("role")),
		First:    secret{Name: "passphrase", Label: "Passphrase", Auto: "new-password", Wrong: m.For("passphrase"), Hint: "At least 15 characters. Hand it over in person; it can be changed after the first sign-in."},
		Client:   entry{Name: "client", Label: "What the token is for", Value: f.text("client"), Wrong: m.For("client")},
		May:      rolePick("token_role", access.Role(f.text("token_role")), m.For("token_role"))}
	sessions, err := s.gate.Store.ListSessions(c.Request.Context(), who.AccountID)
	if err != nil {
		return p, err
	}
	for _, one := range sessions {
		p.Sessions = append(p.Sessions, sessionView{ID: one.ID, Device: one.Device, Seen: one.SeenAt.In(s.now().Location()).Format(moment), This: one.ID == who.SessionID})
	}
	if !p.Keeper {
		return p, nil
	}
	err = s.fillKeeper(c, &p, h.ID, who.AccountID)
	return p, err
}

// fillKeeper lists who else may come in.
func (s *Site) fillKeeper(c *gin.Context, p *accountPage, householdID, self int64) error {
	accounts, err := s.gate.Store.ListAccounts(c.Request.Context(), householdID)
	if err != nil {
		return err
	}
	for _, a := range accounts {
		role, field := rolePick("role", a.Role, p.Wrong.For(fmt.Sprintf("role_%d", a.ID))), fmt.Sprintf("passphrase_%d", a.ID)
		role.Name = fmt.Sprintf("role_%d", a.ID)
		p.Accounts = append(p.Accounts, accountView{ID: a.ID, Name: a.Name, Role: string(a.Role), Self: a.ID == self, RolePick: role,
			Passphrase: secret{Name: field, Label: "New passphrase", Auto: "new-password", Hint: "Leave empty to keep the one so far. A new one signs them out everywhere.", Wrong: p.Wrong.For(field)}})
	}
	tokens, err := s.gate.Store.ListTokens(c.Request.Context(), householdID)
	if err != nil {
		return err
	}
	for _, t := range tokens {
		p.Tokens = append(p.Tokens, tokenView{ID: t.ID, Name: t.Name, Role: string(t.Role), Since: s.dayWords(t.CreatedAt), LastUsed: s.dayWords(t.UsedAt)})
	}
	return nil
}

// dayWords is the day of a time as the household counts it, "" for none.
func (s *Site) dayWords(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.In(s.now().Location()).Format("2 January 2006")
}

// showFaults shows the page with what is wrong with what was typed.
func (s *Site) showFaults(c *gin.Context, f form, m messages) error {
	p, err := s.accountPage(c, f, m)
	if err != nil {
		return err
	}
	return s.show(c, http.StatusUnprocessableEntity, "account", p)
}

func (s *Site) changePassphrase(c *gin.Context) error {
	who, err := signedIn(c)
	if err != nil {
		return err
	}
	f, err := readForm(c)
	if err != nil {
		return err
	}
	var m messages
	if err := access.CheckPassphrase(f.values.Get("new")); err != nil {
		m.add("new", "%s", sentence(err.Error()))
		return s.showFaults(c, f, m)
	}
	opened, err := s.gate.Change(c.Request.Context(), who, access.Attempt{Name: who.Name, Passphrase: f.values.Get("old"),
		Address: s.addressOf(c.Request), Device: deviceWords(c.Request.UserAgent())}, f.values.Get("new"))
	var wait access.ThrottledError
	switch {
	case errors.Is(err, access.ErrWrong):
		m.add("old", "That is not the passphrase so far.")
	case errors.As(err, &wait):
		m.add("old", "Too many tries. Wait %s and try again.", waitWords(wait))
	case err != nil:
		return err
	default:
		s.setCookie(c, opened)
		return s.backToAccount(c, "passphrase")
	}
	return s.showFaults(c, f, m)
}

func (s *Site) backToAccount(c *gin.Context, done string) error {
	return seeOther(c, "/h/"+c.Param("hid")+"/account?done="+done)
}

// endSession ends one of the caller's sign-ins, all of them for 0.
func (s *Site) endSession(c *gin.Context) error {
	who, err := signedIn(c)
	if err != nil {
		return err
	}
	id, err := number(c, "sid")
	if err != nil {
		return err
	}
	if err := s.gate.Store.EndSession(c.Request.Context(), who.AccountID, id); err != nil {
		return err
	}
	if id == 0 || id == who.SessionID {
		s.setCookie(c, "")
		return seeOther(c, "/login")
	}
	return s.backToAccount(c, "sessions")
}
