package server_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// mostTabs is how often the key is pressed at most to reach something.
const mostTabs = 250

// focused tells of what has the focus whether it fits the selector, and whether it is
// seen that it has it.
const focused = `(e => ({fits: e.matches(%q), seen: e === document.body || getComputedStyle(e).outlineStyle !== "none", what: e.outerHTML.slice(0, 120)}))(document.activeElement)`

// tabTo presses Tab until the focus is on what a selector means; every stop on the
// way must be seen to have the focus (WCAG 2.2, 2.4.7).
func (b *tab) tabTo(selector string) {
	b.t.Helper()
	for range mostTabs {
		b.do(chromedp.KeyEvent(kb.Tab))
		at, err := chromedp.Run(b.ctx, chromedp.Evaluate[struct {
			Fits bool   `json:"fits"`
			Seen bool   `json:"seen"`
			What string `json:"what"`
		}](fmt.Sprintf(focused, selector)))
		require.NoError(b.t, err)
		require.True(b.t, at.Seen, "nothing shows that the focus is on %s", at.What)
		if at.Fits {
			return
		}
	}
	require.Fail(b.t, "the keyboard does not get there", selector)
}

// enter presses Enter on what a selector means and waits for the next page.
func (b *tab) enter(selector string) {
	b.t.Helper()
	b.tabTo(selector)
	b.follow(chromedp.KeyEvent(kb.Enter))
}

// typeInto types into a field that is empty, or into a list until an entry fits.
func (b *tab) typeInto(name, text string) {
	b.t.Helper()
	b.tabTo(fmt.Sprintf("main [name=%q]", name))
	b.do(chromedp.KeyEvent(text))
}

// TestTheWholeJobByKeyboardAlone goes from an empty start to the last step of cooking
// a saved adaptation without a mouse.
func TestTheWholeJobByKeyboardAlone(t *testing.T) {
	needBrowser(t)
	h := newHouse(t)
	b := newTab(t, h, screens()[2])
	b.open("/")
	b.typeInto("name", "Quay Lane")
	b.follow(chromedp.KeyEvent(kb.Enter))

	b.enter(`main a[href$="/people/new"]`)
	b.typeInto("name", "Ana")
	b.typeInto("age", "71")
	b.typeInto("limit_nutrient_0", "sodium")
	b.typeInto("limit_amount_0", "600")
	b.follow(chromedp.KeyEvent(kb.Enter))
	require.Contains(t, b.words(), "sodium: at most 600 mg a meal")

	b.enter(`nav a[href$="/recipes"]`)
	b.enter(`a[href$="/recipes/new"]`)
	b.typeInto("text", "Quick beans\r\rServes 2\r\rIngredients\r1 (15 oz) can kidney beans\r1 tsp salt\r1 onion, chopped\r\rMethod\r1. Soften the onion.\r2. Warm the beans with the onion and the salt for 5 minutes.")
	b.enter(`main form button`)
	require.Contains(t, b.words(), "The recipe is saved.")

	b.enter(`a[href*="/table?dish="]`)
	require.Contains(t, b.words(), "Does not suit everyone yet.")
	b.enter(`.dish a[href*="/adapt"]`)
	require.Contains(t, b.words(), "the dish suits everyone")
	b.typeInto("note", "for Sunday")
	b.enter(`form[action$="/adapt/save"] button`)
	require.Contains(t, b.words(), "for Sunday")

	b.enter(`main a[href*="/cook"]`)
	for range 2 {
		b.follow(chromedp.KeyEvent(kb.ArrowRight))
	}
	assert.Contains(t, b.words(), "Warm the beans")
	b.do(chromedp.KeyEvent(kb.Enter))
	b.wait(`document.querySelector("[data-running]").innerText.trim() !== ""`)
	for range 5 { // a step that the answer added may come before
		if strings.Contains(b.words(), "Onto each plate") {
			return
		}
		b.follow(chromedp.KeyEvent(kb.ArrowRight))
	}
	assert.Fail(t, "the arrow does not lead to the plates", b.words())
}
