package server_test

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// opened is set once there is a browser to close.
var opened bool

// openBrowser starts the one browser of this package; every test opens a tab.
var openBrowser = sync.OnceValues(func() (context.Context, context.CancelFunc) {
	opened = true
	alloc, stopAlloc := chromedp.NewExecAllocator(context.Background(), append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.NoSandbox, chromedp.DisableGPU, chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-domain-reliability", true))...)
	ctx, stop := chromedp.NewContext(alloc)
	return ctx, func() { stop(); stopAlloc() }
})

func hasBrowser() bool {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "chrome"} {
		if _, err := exec.LookPath(name); err == nil {
			return true
		}
	}
	return false
}

func TestMain(m *testing.M) {
	code := m.Run()
	if opened {
		_, stop := openBrowser()
		stop()
	}
	os.Exit(code)
}

// tab is one page of the browser and what went wrong in it.
type tab struct {
	t   *testing.T
	ctx context.Context
	url string

	lock   sync.Mutex
	faults []string
}

// screen is a window and how the page is looked at.
type screen struct {
	name          string
	width, height int64
	scripts       bool
}

func screens() []screen {
	return []screen{
		{"a phone", 360, 740, true}, {"a phone without scripts", 360, 740, false},
		{"a desk", 1280, 900, true}, {"a desk without scripts", 1280, 900, false},
	}
}

// needBrowser skips a test that looks at pages in a browser where there is none to be
// had, before it makes a house to look at.
func needBrowser(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("no browser in a short run")
	}
	if !hasBrowser() {
		if os.Getenv("CI") == "true" {
			t.Fatal("no Chromium found, and CI must have one")
		}
		t.Skip("NO BROWSER TEST: install Chromium to run it")
	}
}

func newTab(t *testing.T, h *house, s screen) *tab {
	t.Helper()
	needBrowser(t)
	parent, _ := openBrowser()
	require.NoError(t, chromedp.Do(parent)) // the browser must be there before its first tab
	ctx, cancel := chromedp.NewContext(parent)
	ctx, cancelTime := context.WithTimeout(ctx, 180*time.Second)
	t.Cleanup(func() { cancelTime(); cancel() })
	b := &tab{t: t, ctx: ctx, url: h.url}
	require.NoError(t, chromedp.Listen(ctx, b.hear))
	b.do(chromedp.EmulateViewport(s.width, s.height))
	_, err := chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: !s.scripts})
	require.NoError(t, err)
	t.Cleanup(b.keepShot)
	return b
}

// hear notes what the page's console complains about. A status of 422 is an
// answer of ours and no fault of the page.
func (b *tab) hear(ev any) {
	b.lock.Lock()
	defer b.lock.Unlock()
	switch e := ev.(type) {
	case *runtime.EventExceptionThrown:
		b.faults = append(b.faults, e.ExceptionDetails.Text)
	case *log.EventEntryAdded:
		if e.Entry.Level == "error" && !strings.Contains(e.Entry.Text, "422") {
			b.faults = append(b.faults, e.Entry.Text)
		}
	}
}

// keepShot keeps a picture of a page on which a test failed.
func (b *tab) keepShot() {
	if !b.t.Failed() {
		return
	}
	shot, err := chromedp.Run(b.ctx, chromedp.FullScreenshot(100))
	if err != nil {
		return
	}
	file := filepath.Join(os.TempDir(), "potwright-"+strings.NewReplacer("/", "-", " ", "-").Replace(b.t.Name())+".png")
	if os.WriteFile(file, shot, 0o600) == nil {
		b.t.Logf("the page looked like %s", file)
	}
}

func (b *tab) do(actions ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	require.NoError(b.t, chromedp.Do(b.ctx, actions...))
}

// open goes to an address and looks the page over.
func (b *tab) open(path string) {
	b.t.Helper()
	b.do(chromedp.Navigate(b.url + path))
	b.look()
}

// follow does what leads to another page, waits for it and looks it over.
func (b *tab) follow(act chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	_, err := chromedp.Run(b.ctx, chromedp.WaitEvent(page.LoadEventFired, nil, act))
	require.NoError(b.t, err)
	b.look()
}

func (b *tab) click(selector string) {
	b.t.Helper()
	b.follow(chromedp.Click(chromedp.CSS(selector)))
}

// openLink goes where a link leads, whatever a script makes of a click on it.
func (b *tab) openLink(selector string) {
	b.t.Helper()
	to, err := chromedp.Run(b.ctx, chromedp.Evaluate[string](fmt.Sprintf("document.querySelector(%q).getAttribute('href')", selector)))
	require.NoError(b.t, err)
	b.open(to)
}

// fill puts text into a field in place of what is there.
func (b *tab) fill(name, value string) {
	b.t.Helper()
	sel := fmt.Sprintf("main [name=%q]", name)
	_, err := chromedp.Run(b.ctx, chromedp.Evaluate[string](fmt.Sprintf("document.querySelector(%q).value = ''", sel)))
	require.NoError(b.t, err)
	b.do(chromedp.SendKeys(chromedp.CSS(sel), value))
}

// choose picks an entry of a list.
func (b *tab) choose(name, value string) {
	b.t.Helper()
	b.do(chromedp.SetValue(chromedp.CSS(fmt.Sprintf("main [name=%q]", name)), value))
}

// words is the text of the page.
func (b *tab) words() string {
	b.t.Helper()
	s, err := chromedp.Run(b.ctx, chromedp.Evaluate[string]("document.body.innerText"))
	require.NoError(b.t, err)
	return s
}

// wait waits until an expression holds on the page.
func (b *tab) wait(expression string) {
	b.t.Helper()
	require.Eventually(b.t, func() bool {
		ok, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](expression))
		return err == nil && ok
	}, 10*time.Second, 50*time.Millisecond, expression)
}

// seen is what looking over a page finds.
type seen struct {
	Wide  int      `json:"wide"`
	Small []string `json:"small"`
}

const lookOver = `({
  wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
  small: [...document.querySelectorAll("a, button, input:not([type=hidden]), select, textarea, summary")]
    .map(e => [e, e.getBoundingClientRect()])
    .filter(([e, r]) => r.width > 0 && (r.width < 44 || r.height < 44))
    .map(([e, r]) => location.pathname + " " + e.outerHTML.slice(0, 80) + " " + Math.round(r.width) + "x" + Math.round(r.height))
})`

// look holds the page against what every page must keep: nothing wider than the
// window, nothing to press under 44 px (WCAG 2.2, 2.5.5), no complaint of the
// browser.
func (b *tab) look() {
	b.t.Helper()
	got, err := chromedp.Run(b.ctx, chromedp.Evaluate[seen](lookOver))
	require.NoError(b.t, err)
	assert.LessOrEqual(b.t, got.Wide, 0, "the page is wider than the window")
	assert.Empty(b.t, got.Small, "too small to press")
	b.lock.Lock()
	defer b.lock.Unlock()
	assert.Empty(b.t, b.faults, "the browser complains")
}

// TestTheWholeJobInABrowser starts a household, adds people, pastes a recipe
// never seen, corrects a line, adapts it, saves it and opens it again.
func TestTheWholeJobInABrowser(t *testing.T) {
	needBrowser(t)
	for _, s := range screens() {
		t.Run(s.name, func(t *testing.T) {
			h := newHouse(t)
			b := newTab(t, h, s)
			b.open("/")
			b.fill("name", "Quay Lane")
			b.click("main form button")
			assert.Contains(t, b.words(), "Now say who eats here.")

			b.click(`a[href$="/people/new"]`)
			b.fill("name", "Ana")
			b.fill("age", "71")
			b.choose("limit_nutrient_0", "sodium_mg")
			b.fill("limit_amount_0", "a few")
			b.click("main form .first-save button")
			assert.Contains(t, b.words(), "“a few” is not a number")
			b.fill("limit_amount_0", "600")
			b.click("main form .first-save button")
			assert.Contains(t, b.words(), "sodium: at most 600 mg a meal, set by a clinician")

			b.click(`a[href$="/people/new"]`)
			b.fill("name", "Ben")
			b.click("main form .first-save button")

			b.click(`nav a[href$="/recipes"]`)
			b.click(`a[href$="/recipes/new"]`)
			b.fill("text", potText)
			b.click("main form button")
			assert.Contains(t, b.words(), "The recipe is saved.")
			assert.Contains(t, b.words(), "not read: its part is not known")

			b.openLink(`#line-6 a`)
			b.fill("q", "salt")
			b.click("main form .search button")
			b.do(chromedp.Click(chromedp.CSS(`input[name="skip"]`)))
			b.click("main form > .actions button")
			assert.Contains(t, b.words(), "corrected by you")

			b.click(`a[href*="/table?dish="]`)
			assert.Contains(t, b.words(), "Does not suit everyone yet.")
			b.click(`.dish a[href*="/adapt"]`)
			assert.Contains(t, b.words(), "the dish suits everyone")
			b.fill("note", "for Sunday")
			b.click(`form[action$="/adapt/save"] button`)
			assert.Contains(t, b.words(), "What changed here")
			assert.Contains(t, b.words(), "for Sunday")

			b.click(`main a[href$="/versions"]`)
			assert.Contains(t, b.words(), "Version 3")
			b.click(`main form button`)
			assert.Contains(t, b.words(), "Two versions side by side")
			b.open("/")
			assert.Contains(t, b.words(), "Harbour bean pot")
		})
	}
}

// TestTheFirstFormNeedsNoMouse goes through it with the keyboard alone.
func TestTheFirstFormNeedsNoMouse(t *testing.T) {
	needBrowser(t)
	h := newHouse(t)
	base, _ := h.furnish()
	b := newTab(t, h, screens()[2])
	b.open(base + "/recipes/new")
	b.do(chromedp.KeyEvent(kb.Tab))
	focus := func() string {
		s, err := chromedp.Run(b.ctx, chromedp.Evaluate[string](`document.activeElement.name || document.activeElement.textContent.trim()`))
		require.NoError(t, err)
		return s
	}
	assert.Equal(t, "Skip to the page", focus(), "the first stop skips what every page has")
	b.do(chromedp.KeyEvent(kb.Enter), chromedp.KeyEvent(kb.Tab))
	require.Equal(t, "text", focus(), "behind the skip comes the form")
	outline, err := chromedp.Run(b.ctx, chromedp.Evaluate[string](`getComputedStyle(document.activeElement).outlineStyle`))
	require.NoError(t, err)
	assert.Equal(t, "solid", outline, "where one is can be seen")
	b.do(chromedp.KeyEvent("Quick beans\r\rServes 2\r\rIngredients\r1 can kidney beans\r1/4 tsp salt\r\rMethod\rWarm the beans with the salt."))
	b.do(chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent("typed without a mouse"), chromedp.KeyEvent(kb.Tab))
	require.Equal(t, "Read and save", focus())
	b.follow(chromedp.KeyEvent(kb.Enter))
	assert.Contains(t, b.words(), "Quick beans")
	assert.Contains(t, b.words(), "typed without a mouse")
}

// TestEveryPageFitsEveryScreen opens every page in light and dark, narrow and
// wide.
func TestEveryPageFitsEveryScreen(t *testing.T) {
	needBrowser(t)
	h := newHouse(t)
	base, dish := h.furnish()
	long := strings.Repeat("Wundertopf", 8)
	h.must(base+"/people/new", "name", long, "limit_nutrient_0", "sodium_mg", "limit_bound_0", "most", "limit_amount_0", "600", "limit_per_0", "day", "limit_by_0", "guidance")
	h.must(dish+"/edit", "text", strings.Replace(potText, "1 tsp salt", "1/4 tsp salt, "+long+long+"\n1 cup "+long, 1), "note", long+long)
	paths := []string{"/?list", base + "/people", base + "/people/1", base + "/people/1/remove", base + "/recipes", base + "/recipes/new", base + "/table",
		dish, dish + "/lines/3?q=beans", dish + "/adapt", dish + "/versions", dish + "/versions/1", dish + "/compare?a=1&b=2", "/nothing"}
	for _, s := range []screen{{"a small phone", 320, 600, true}, screens()[0], {"a tablet", 768, 1024, true}, screens()[2]} {
		t.Run(s.name, func(t *testing.T) {
			b := newTab(t, h, s)
			for _, path := range paths {
				b.faults = nil
				b.do(chromedp.Navigate(b.url + path))
				if path == "/nothing" {
					b.faults = nil // a missing page is what was asked for
				}
				b.look()
			}
		})
	}
}
