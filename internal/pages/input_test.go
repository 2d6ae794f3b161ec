package pages

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestNumbersAreReadAsPeopleWriteThem(t *testing.T) {
	for typed, want := range map[string]float64{
		"600": 600, " 600 ": 600, "1,500": 1500, "0.5": 0.5, "0,5": 0.5, "1/2": 0.5, "½": 0.5, "1 1/2": 1.5, "1½": 1.5,
		"2 ¾": 2.75, "1,25": 1.25, "-3": -3, "0,125": 0.125,
	} {
		got, ok := parseNumber(typed)
		assert.True(t, ok, "%q", typed)
		assert.InDelta(t, want, got, 1e-12, "%q", typed)
	}
	for _, typed := range []string{"", "abc", "1/0", "1 2", "1/2 1", "NaN", "Inf", "1,2,3", "1e999", "½½", "3 g"} {
		_, ok := parseNumber(typed)
		assert.False(t, ok, "%q", typed)
	}
}

func TestAWrongNumberGetsASentenceThatShowsARightOne(t *testing.T) {
	b := bounds{Low: 0, High: 100, Whole: true, Example: "71"}
	for name, c := range map[string]struct{ typed, want string }{
		"a word":           {"old", "“old” is not a number; write one such as 71."},
		"below zero":       {"-4", "Write a number from 0 to 100, such as 71."},
		"too much":         {"1000", "Write a number from 0 to 100, such as 71."},
		"a part of a year": {"7.5", "Write a whole number such as 71."},
	} {
		t.Run(name, func(t *testing.T) {
			var m messages
			_, ok := numberIn(&m, "age", c.typed, b)
			assert.False(t, ok)
			assert.Equal(t, c.want, m.For("age"))
		})
	}
	var m messages
	_, ok := numberIn(&m, "age", "", b)
	assert.False(t, ok)
	assert.Empty(t, m, "an empty field is not wrong")
}

func TestATypedNumberReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(0, 1e5).Draw(t, "x")
		got, ok := parseNumber(typedAmount(x))
		assert.True(t, ok)
		assert.InDelta(t, x, got, 1e-6)
	})
}

func TestAPlansWeightReadsBack(t *testing.T) {
	// 15 g of carbohydrate a choice (American Diabetes Association exchange
	// lists) is 0.0667 a gram.
	assert.Equal(t, "15", typedWeight(1.0/15))
	assert.Equal(t, "2", typedWeight(0.5))
}

func FuzzParseNumber(f *testing.F) {
	for _, s := range []string{"1/2", "1,500", "½", "", "1 1/2", "\x00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		x, ok := parseNumber(s)
		if ok && (math.IsNaN(x) || math.IsInf(x, 0)) {
			t.Fatalf("%q gave %v", s, x)
		}
	})
}

func TestTextIsKeptWhateverIsWrongWithIt(t *testing.T) {
	for name, c := range map[string]struct {
		typed    string
		cut      bool
		says     string
		keepsAll bool
	}{
		"nothing":      {typed: "  \n", says: "Paste or type a recipe", keepsAll: true},
		"a file":       {typed: "\x89PNG\x00\x01 soup", says: "looks like a file"},
		"broken UTF-8": {typed: "soup \xff\xfe", says: "looks like a file"},
		"5 MB":         {typed: strings.Repeat("1 cup flour\n", 5<<20/12), says: "far more than a recipe"},
		"cut off":      {typed: "1 cup flour", cut: true, says: "far more than a recipe"},
		"a recipe":     {typed: "Soup\n\n1 cup stock\r\n", keepsAll: true},
	} {
		t.Run(name, func(t *testing.T) {
			keep, wrong := checkText(c.typed, c.cut)
			if c.says == "" {
				assert.Empty(t, wrong)
			} else {
				assert.Contains(t, wrong, c.says)
			}
			if c.keepsAll {
				assert.Equal(t, c.typed, keep)
			}
			assert.LessOrEqual(t, len(keep), keepLimit)
			assert.NotContains(t, keep, "\x00")
		})
	}
}

func FuzzCheckText(f *testing.F) {
	f.Add("Soup\n1 cup stock", false)
	f.Add("\xff\x00", true)
	f.Fuzz(func(t *testing.T, s string, cut bool) {
		keep, wrong := checkText(s, cut)
		if wrong == "" && keep != s {
			t.Fatal("a good text was changed")
		}
	})
}

func TestAnEscapeCutInTwoIsDropped(t *testing.T) {
	assert.Equal(t, "text=a", string(wholeEscapes([]byte("text=a%"))))
	assert.Equal(t, "text=a", string(wholeEscapes([]byte("text=a%C"))))
	assert.Equal(t, "text=a%C3", string(wholeEscapes([]byte("text=a%C3"))))
	assert.Empty(t, wholeEscapes(nil))
}

func TestNamesAreSplitAtSemicolonsWhereThereAreAny(t *testing.T) {
	assert.Equal(t, []string{"celery root", "blue cheese"}, splitNames("Celery  root, blue cheese,"))
	assert.Equal(t, []string{"cheese, blue", "celery"}, splitNames("cheese, blue; celery"))
	assert.Empty(t, splitNames(" , ; "))
}
