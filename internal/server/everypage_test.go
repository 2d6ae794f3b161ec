package server_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// axeVariable names the file of axe-core, the accessibility rules of Deque Systems
// (npm, MPL 2.0), which is no part of the repository.
const axeVariable = "POTWRIGHT_AXE"

// axeSource is axe-core's code. The test is skipped where it is not at hand; CI must
// have it.
func axeSource(t *testing.T) string {
	t.Helper()
	file := os.Getenv(axeVariable)
	if file == "" {
		if os.Getenv("CI") == "true" {
			t.Fatal(axeVariable + " is not set, and CI must have axe-core")
		}
		t.Skip(axeVariable + " is not set: npm install axe-core somewhere and name its axe.min.js to run this")
	}
	b, err := os.ReadFile(file)
	require.NoError(t, err)
	return string(b)
}

// axeRun holds the page against the WCAG 2.0 to 2.2 rules to AA and axe's best practices; the size of
// targets, which axe asks at 24 px, every page is held to at 44 px by look.
const axeRun = `axe.run(document, {resultTypes: ["violations"]}).then(r => JSON.stringify(r.violations.map(v => ({
  rule: v.id, help: v.help, nodes: v.nodes.slice(0, 4).map(n => n.html.slice(0, 160) + " | " + (n.any.concat(n.all, n.none)[0] || {message: ""}).message)
}))))`

type violation struct {
	Rule  string   `json:"rule"`
	Help  string   `json:"help"`
	Nodes []string `json:"nodes"`
}

// sorts of address: numbers, dates and rule ids stand for any other.
var (
	numberIn = regexp.MustCompile(`\d+`)
	ruleIn   = regexp.MustCompile(`^(/h/N)?/rules/[^?]+$`)
)

// sortOf is what an address has in common with those of pages like it.
func sortOf(address string) string {
	path, query, _ := strings.Cut(address, "?")
	path = numberIn.ReplaceAllString(path, "N")
	path = ruleIn.ReplaceAllString(path, "$1/rules/ONE")
	var names []string
	for _, pair := range strings.Split(query, "&") {
		name, value, _ := strings.Cut(pair, "=")
		if name == "done" {
			name += "=" + value
		}
		names = append(names, name)
	}
	slices.Sort(names)
	return path + "?" + strings.Join(slices.Compact(names), "&")
}

// crawl finds every sort of page that links lead to, one address each, in the order
// met. Files to download are left out.
func (h *house) crawl(from string) []string {
	h.t.Helper()
	seen := map[string]bool{}
	queue := []string{from}
	var pages []string
	for len(queue) > 0 {
		at := queue[0]
		queue = queue[1:]
		r := h.get(at)
		if loc := r.Header.Get("Location"); loc != "" {
			queue = h.queued(queue, seen, loc)
			continue
		}
		if !strings.HasPrefix(r.Header.Get("Content-Type"), "text/html") {
			continue
		}
		assert.Less(h.t, r.StatusCode, 400, "%s is linked to", at)
		pages = append(pages, at)
		for _, a := range elements(parse(h.t, r), "a") {
			if !has(a, "download") {
				queue = h.queued(queue, seen, resolve(at, attr(a, "href")))
			}
		}
	}
	return pages
}

func (h *house) queued(queue []string, seen map[string]bool, address string) []string {
	address, _, _ = strings.Cut(address, "#")
	if !strings.HasPrefix(address, "/") || seen[sortOf(address)] {
		return queue
	}
	seen[sortOf(address)] = true
	return append(queue, address)
}

// resolve is an href of the page at an address.
func resolve(at, href string) string {
	if strings.HasPrefix(href, "?") {
		path, _, _ := strings.Cut(at, "?")
		return path + href
	}
	return href
}

// lived is a household that has used everything: a saved adaptation, a day with
// something eaten and something planned, a freezer with old containers, a remark.
func (h *house) lived() (base string) {
	h.t.Helper()
	base, dish := h.furnish()
	h.must(base+"/people/new", "name", "Cleo", "age", "4", "portion", "1/2", "caution", "grapefruit", "caution", "honey_under_one", "avoid", "peanut")
	mark := valueOf(parse(h.t, h.get(dish+"/adapt")), "mark")
	if mark != "" {
		h.must(dish+"/adapt/save", "mark", mark, "note", "for Sunday")
	}
	today := time.Now().Format("2006-01-02")
	for i, state := range []string{"eaten", "planned"} {
		h.must(base+"/day/dish", "version", "1", "date", today, "meal", []string{"midday", "evening"}[i], "state", state)
	}
	h.must(dish+"/portions", "version", "1", "size", "1", "by", "servings", "made", "1 March 2020", "count", "2")
	h.must(dish+"/made", "version", "1", "date", today, "rating", "2", "remark", "too thin")
	for i := range 2 {
		r := h.sendPhotos(dish, []string{"", "the pot before the beans go in"}[i], "pot.jpg", string(aPhoto(h.t, 600, 450, i)))
		require.Equal(h.t, http.StatusSeeOther, r.StatusCode)
	}
	h.must(photoForm(h.t, h.get(dish+"/photos"), 1), "card", "yes", "caption2", "the pot before the beans go in")
	return base
}

// TestEveryPageIsAccessible walks every sort of page in light and dark, narrow and
// wide: no violation of axe's rules, nothing wider than the window, nothing too
// small to press, no complaint of the browser.
func TestEveryPageIsAccessible(t *testing.T) {
	axe := axeSource(t)
	h := newHouse(t)
	h.lived()
	pages := h.crawl("/?list")
	require.Greater(t, len(pages), 25)
	for _, c := range []struct {
		screen
		scheme string
	}{{screens()[0], "light"}, {screens()[0], "dark"}, {screens()[2], "light"}} {
		t.Run(c.name+", "+c.scheme, func(t *testing.T) {
			b := newTab(t, h, c.screen)
			b.prefer("prefers-color-scheme", c.scheme)
			for _, p := range pages {
				b.faults = nil
				b.open(p)
				b.accessible(axe, p)
			}
		})
	}
}

// TestEveryPageFitsAnyWidthAndLargeText opens every sort of page from 320 to 1920 px,
// with text at twice its size (WCAG 2.2, 1.4.4 and 1.4.10) and with motion reduced.
func TestEveryPageFitsAnyWidthAndLargeText(t *testing.T) {
	needBrowser(t)
	h := newHouse(t)
	h.lived()
	b := newTab(t, h, screen{"any", 360, 740, true})
	b.prefer("prefers-reduced-motion", "reduce")
	for _, p := range h.crawl("/?list") {
		b.faults = nil
		b.do(chromedp.EmulateViewport(360, 740))
		b.open(p)
		moving, err := chromedp.Run(b.ctx, chromedp.Evaluate[int](
			`document.getAnimations().filter(a => a.playState === "running").length`))
		require.NoError(t, err)
		assert.Zero(t, moving, "%s: nothing moves where motion is reduced", p)
		for _, width := range []int64{320, 768, 1280, 1920} {
			b.do(chromedp.EmulateViewport(width, 800))
			assert.LessOrEqual(t, b.wide(), 0, "%s is wider than %d px", p, width)
		}
		b.do(chromedp.EmulateViewport(1280, 800))
		_, err = chromedp.Run(b.ctx, chromedp.Evaluate[string](`document.documentElement.style.fontSize = "200%"`))
		require.NoError(t, err)
		assert.LessOrEqual(t, b.wide(), 0, "%s is wider than the window with text at twice its size", p)
	}
}

// prefer sets what the person's system asks of pages.
func (b *tab) prefer(feature, value string) {
	b.t.Helper()
	_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: feature, Value: value}}})
	require.NoError(b.t, err)
}

// wide is by how many pixels the page is wider than the window.
func (b *tab) wide() int {
	b.t.Helper()
	n, err := chromedp.Run(b.ctx, chromedp.Evaluate[int](`document.documentElement.scrollWidth - document.documentElement.clientWidth`))
	require.NoError(b.t, err)
	return n
}

// accessible holds the page against the rules.
func (b *tab) accessible(source, page string) {
	b.t.Helper()
	for _, v := range b.axe(source) {
		assert.Fail(b.t, fmt.Sprintf("%s: %s (%s)", page, v.Rule, v.Help), strings.Join(v.Nodes, "\n"))
	}
}

// axe runs the rules on the page as it stands.
func (b *tab) axe(source string) []violation {
	b.t.Helper()
	_, err := chromedp.Run(b.ctx, chromedp.Evaluate[string](source+"; typeof axe"))
	require.NoError(b.t, err)
	out, err := chromedp.Run(b.ctx, chromedp.Evaluate[string](axeRun, chromedp.EvalAwaitPromise))
	require.NoError(b.t, err)
	var vs []violation
	require.NoError(b.t, json.Unmarshal([]byte(out), &vs))
	return vs
}
