package pages

import (
	"errors"
	"fmt"
	"net/http"

	"github.com/gin-gonic/gin"

	"potwright/internal/access"
)

func (s *Site) addAccount(c *gin.Context) error {
	h, _, f, err := s.accountForm(c)
	if err != nil {
		return err
	}
	var m messages
	name, wrong := cleanName(f.text("name"))
	if wrong != "" {
		m.add("name", "%s", wrong)
	}
	role, err := access.ParseRole(f.text("role"))
	if err != nil {
		m.add("role", "Choose one from the list.")
	}
	if err := access.CheckPassphrase(f.values.Get("passphrase")); err != nil {
		m.add("passphrase", "%s", sentence(err.Error()))
	}
	if len(m) == 0 {
		_, err = s.gate.Open(c.Request.Context(), access.Account{HouseholdID: h, Name: name, Role: role}, f.values.Get("passphrase"))
		switch {
		case errors.Is(err, access.ErrTaken):
			m.add("name", "There is an account of that name already; choose another.")
		case err != nil:
			return err
		default:
			return s.backToAccount(c, "account")
		}
	}
	return s.showFaults(c, f, m)
}

// accountForm reads a keeper's form: the household's id and, where the address names
// one, the account's.
func (s *Site) accountForm(c *gin.Context) (householdID, accountID int64, f form, err error) {
	if householdID, err = number(c, "hid"); err != nil {
		return 0, 0, f, err
	}
	if c.Param("aid") != "" {
		if accountID, err = number(c, "aid"); err != nil {
			return 0, 0, f, err
		}
	}
	f, err = readForm(c)
	return householdID, accountID, f, err
}

func (s *Site) changeAccount(c *gin.Context) error {
	h, id, f, err := s.accountForm(c)
	if err != nil {
		return err
	}
	var m messages
	roleField, field := fmt.Sprintf("role_%d", id), fmt.Sprintf("passphrase_%d", id)
	role, err := access.ParseRole(f.text(roleField))
	if err != nil {
		m.add(roleField, "Choose one from the list.")
	}
	typed := f.values.Get(field)
	if typed != "" {
		if err := access.CheckPassphrase(typed); err != nil {
			m.add(field, "%s", sentence(err.Error()))
		}
	}
	if len(m) > 0 {
		return s.showFaults(c, f, m)
	}
	if err := s.gate.Store.SetRole(c.Request.Context(), h, id, role); err != nil {
		return s.keeperFault(c, f, roleField, err)
	}
	if typed != "" {
		if err := s.gate.Reset(c.Request.Context(), h, id, typed); err != nil {
			return err
		}
	}
	return s.backToAccount(c, "account")
}

// keeperFault says that a household keeps one keeper.
func (s *Site) keeperFault(c *gin.Context, f form, field string, err error) error {
	if !errors.Is(err, access.ErrLastKeeper) {
		return err
	}
	var m messages
	m.add(field, "%s", sentence(access.ErrLastKeeper.Error()))
	return s.showFaults(c, f, m)
}

func (s *Site) removeAccount(c *gin.Context) error {
	h, id, f, err := s.accountForm(c)
	if err != nil {
		return err
	}
	if err := s.gate.Store.DeleteAccount(c.Request.Context(), h, id); err != nil {
		return s.keeperFault(c, f, fmt.Sprintf("role_%d", id), err)
	}
	return s.backToAccount(c, "accountgone")
}

// makeToken answers with the page that shows the token, this once.
func (s *Site) makeToken(c *gin.Context) error {
	h, _, f, err := s.accountForm(c)
	if err != nil {
		return err
	}
	var m messages
	name, wrong := cleanName(f.text("client"))
	if wrong != "" {
		m.add("client", "%s", wrong)
	}
	role, err := access.ParseRole(f.text("token_role"))
	if err != nil {
		m.add("token_role", "Choose one from the list.")
	}
	if len(m) > 0 {
		return s.showFaults(c, f, m)
	}
	made, err := s.gate.MakeToken(c.Request.Context(), h, name, role)
	if err != nil {
		return err
	}
	p, err := s.accountPage(c, form{}, nil)
	if err != nil {
		return err
	}
	p.Made = made
	return s.show(c, http.StatusOK, "account", p)
}

func (s *Site) revokeToken(c *gin.Context) error {
	h, err := number(c, "hid")
	if err != nil {
		return err
	}
	id, err := number(c, "tid")
	if err != nil {
		return err
	}
	if err := s.gate.Store.DeleteToken(c.Request.Context(), h, id); err != nil {
		return err
	}
	return s.backToAccount(c, "token")
}
