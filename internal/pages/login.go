package pages

import (
	"errors"
	"fmt"
	"math"
	"net/http"
	"net/url"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/access"
)

// secret is a field for a passphrase; what was typed never comes back.
type secret struct {
	Name, Label, Hint, Wrong string
	// Auto tells a browser's keeper of passphrases which one is meant:
	// current-password or new-password.
	Auto string
}

// loginPage asks who it is.
type loginPage struct {
	frame
	Name       entry
	Passphrase secret
	Wrong      string
	// Next is the address that was asked for.
	Next string
}

// CookieName is the name of the session's cookie. Where the way here is HTTPS, the
// prefix keeps a neighbouring host from setting it (RFC 6265bis).
func CookieName(secure bool) string {
	if secure {
		return "__Host-potwright"
	}
	return "potwright"
}

// registerLogin puts the pages of package access on the router, where accounts are
// kept.
func (s *Site) registerLogin(r gin.IRouter) {
	if s.gate == nil {
		return
	}
	r.GET("/login", s.do(s.showLogin))
	r.POST("/login", s.do(s.logIn))
	r.POST("/logout", s.do(s.logOut))
	r.GET("/share/:secret", s.do(s.showShared))
	r.GET("/share/:secret/photos/:digest/:file", s.do(s.sendSharedPhoto))
}

func (s *Site) newLoginPage(name, next, wrong string) loginPage {
	return loginPage{frame: frame{Title: "Sign in", Bare: true}, Wrong: wrong, Next: ownAddress(next),
		Name:       entry{Name: "name", Label: "Name of the account", Value: name},
		Passphrase: secret{Name: "passphrase", Label: "Passphrase", Auto: "current-password"}}
}

// ownAddress is an address on this server, "/" for any other.
func ownAddress(typed string) string {
	u, err := url.Parse(typed)
	if err != nil || u.Host != "" || u.Scheme != "" || !strings.HasPrefix(typed, "/") || strings.HasPrefix(typed, "//") || strings.ContainsAny(typed, "\\\r\n\t") {
		return "/"
	}
	return typed
}

func (s *Site) showLogin(c *gin.Context) error {
	return s.show(c, http.StatusOK, "login", s.newLoginPage("", c.Query("next"), ""))
}

func (s *Site) logIn(c *gin.Context) error {
	f, err := readForm(c)
	if err != nil {
		return err
	}
	earlier, _ := c.Cookie(CookieName(s.secure))
	opened, err := s.gate.SignIn(c.Request.Context(), access.Attempt{Name: f.text("name"), Passphrase: f.values.Get("passphrase"),
		Address: s.addressOf(c.Request), Device: deviceWords(c.Request.UserAgent())}, earlier)
	page := s.newLoginPage(f.text("name"), f.text("next"), "")
	var wait access.ThrottledError
	switch {
	case errors.As(err, &wait):
		c.Header("Retry-After", fmt.Sprint(math.Ceil(wait.Wait.Seconds())))
		page.Wrong = "Too many tries. Wait " + waitWords(wait) + " and try again. Whoever is signed in stays so."
		return s.show(c, http.StatusTooManyRequests, "login", page)
	case errors.Is(err, access.ErrWrong):
		page.Wrong = "The name or the passphrase is not right. A keeper of the household can give you another passphrase; whoever keeps the data file can set a keeper’s with “potwright passphrase set”."
		return s.show(c, http.StatusUnauthorized, "login", page)
	case err != nil:
		return fmt.Errorf("sign in: %w", err)
	}
	s.setCookie(c, opened)
	return seeOther(c, page.Next)
}

func waitWords(e access.ThrottledError) string {
	return countWords(int(math.Ceil(e.Wait.Minutes())), "minute", "minutes")
}

// setCookie gives the browser a session's secret, or takes it away for "".
func (s *Site) setCookie(c *gin.Context, value string) {
	life := int(access.SessionLife.Seconds())
	if value == "" {
		life = -1
	}
	http.SetCookie(c.Writer, &http.Cookie{Name: CookieName(s.secure), Value: value, Path: "/", MaxAge: life,
		HttpOnly: true, Secure: s.secure, SameSite: http.SameSiteLaxMode})
}

func (s *Site) logOut(c *gin.Context) error {
	held, _ := c.Cookie(CookieName(s.secure))
	if err := s.gate.SignOut(c.Request.Context(), held); err != nil {
		return fmt.Errorf("sign out: %w", err)
	}
	s.setCookie(c, "")
	return seeOther(c, "/login")
}

// Refuse sends the page that says who may do what was refused.
func (s *Site) Refuse(c *gin.Context, refused error) {
	s.tell(c, http.StatusForbidden, "Not with this account", sentence(refused.Error()),
		"Ask one of them, or go back. Nothing was changed.")
}

// AskToSignIn answers who is not signed in: a page leads to the login and back, a
// form is not lost.
func (s *Site) AskToSignIn(c *gin.Context) {
	if c.Request.Method == http.MethodGet || c.Request.Method == http.MethodHead {
		c.Header("Cache-Control", "no-store")
		c.Redirect(http.StatusSeeOther, "/login?next="+url.QueryEscape(c.Request.URL.RequestURI()))
		c.Abort()
		return
	}
	s.tell(c, http.StatusUnauthorized, "Not signed in any more", "Nothing was saved.",
		"Sign in at /login in another tab; then go back here, where what you typed still stands, and send it again.")
}

// tell sends a page of a few words and ends the request.
func (s *Site) tell(c *gin.Context, status int, title, what, next string) {
	defer c.Abort()
	if err := s.show(c, status, "error", errorPage{frame: frame{Title: title}, What: what, Next: next}); err != nil {
		s.log.ErrorContext(c.Request.Context(), "page failed", "path", c.FullPath(), "error", err)
		s.Fail(c, http.StatusInternalServerError)
	}
}

// sentence writes an error as a sentence.
func sentence(said string) string {
	if said == "" {
		return ""
	}
	return strings.ToUpper(said[:1]) + said[1:] + "."
}
