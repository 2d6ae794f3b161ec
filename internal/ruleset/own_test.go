package ruleset_test

import (
	"testing"
	"testing/fstest"

	"potwright/internal/kitchen"
	"potwright/internal/ruleset"
	"potwright/rules"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const ownSalt = `theme: Ours
rules:
  - id: own-salt-third
    title: A third of the salt
    match: {kinds: [salt]}
    do: reduce
    keep: [0.33]
    change: 6
    why: We are used to it.
    source: common practice
    examples: {fires: ["1 tsp salt"], not: ["1 cup water"]}
  - id: own-broken
    title: Broken
    match: {kinds: [slat]}
`

func library(t *testing.T, files map[string]string) *kitchen.Rulebook {
	t.Helper()
	own := fstest.MapFS{}
	for name, text := range files {
		own[name] = &fstest.MapFile{Data: []byte(text)}
	}
	var folders []ruleset.Folder
	if len(files) > 0 {
		folders = append(folders, ruleset.Folder{Name: "ours", FS: own})
	}
	book, err := ruleset.Library(ruleset.Folder{FS: rules.FS}, folders, stock(t))
	require.NoError(t, err)
	return book
}

func TestOwnRulesAreAddedAndOnesAtFaultLeftOut(t *testing.T) {
	without := library(t, map[string]string{"salt.yaml": "theme: none yet\nrules: []\n"})
	book := library(t, map[string]string{"salt.yaml": ownSalt, "swap/odd.yaml": "rules: [\n"})
	assert.Len(t, book.Swaps.Rules(), len(without.Swaps.Rules())+1)
	_, ok := book.Swaps.Rule("own-salt-third")
	assert.True(t, ok)
	_, ok = book.Swaps.Rule("own-broken")
	assert.False(t, ok)
	origin := book.Origins[kitchen.RuleKey{Sort: kitchen.SwapRule, ID: "own-salt-third"}]
	assert.Equal(t, kitchen.RuleOrigin{Folder: "ours", File: "salt.yaml", Line: 3, Theme: "Ours"}, origin)
	require.NotEmpty(t, book.Faults)
	assert.Contains(t, book.Faults.Error(), `ours/salt.yaml:14:21: rules[1].match.kinds[0]: unknown kind "slat"; expected "salt" [own-broken]`)
	assert.Contains(t, book.Faults.Error(), "ours/swap/odd.yaml:2:1: not readable as YAML")
}

func TestAnOwnRuleOfTheSameIdTakesThePlaceOfTheBuiltInOne(t *testing.T) {
	book := library(t, map[string]string{"need/fruit.yaml": `avoidances:
  - id: coconut
    title: coconut and palm
    lists: [choice]
    words: [coconut, palm sugar]
    source: own choice
  - id: kiwi
    title: kiwi
    lists: [choice]
    words: [kiwi]
    includes: [coconut]
    source: own choice
`})
	assert.Empty(t, book.Faults)
	coconut, err := book.Needs.Avoidance("coconut")
	require.NoError(t, err)
	assert.Equal(t, "coconut and palm", coconut.Title)
	_, err = book.Needs.Avoidance("kiwi")
	require.NoError(t, err)
	_, err = book.Needs.Avoidance("milk")
	require.NoError(t, err, "the others stand")
	assert.True(t, book.Origins[kitchen.RuleKey{Sort: kitchen.AvoidedFood, ID: "coconut"}].Replaces)
	assert.False(t, book.Origins[kitchen.RuleKey{Sort: kitchen.AvoidedFood, ID: "kiwi"}].Replaces)
}

func TestABrokenOwnRuleLeavesTheBuiltInOneInForce(t *testing.T) {
	plain := library(t, map[string]string{"a.yaml": "theme: none yet\nrules: []\n"})
	id := plain.Swaps.Rules()[0].ID
	book := library(t, map[string]string{"a.yaml": "theme: Ours\nrules:\n  - id: " + id + "\n    title: Mine\n    change: 99\n"})
	rule, ok := book.Swaps.Rule(id)
	require.True(t, ok)
	assert.NotEqual(t, "Mine", rule.Title)
	assert.Empty(t, book.Origins[kitchen.RuleKey{Sort: kitchen.SwapRule, ID: id}].Folder)
	assert.NotEmpty(t, book.Faults)
}

const ownKeeping = `theme: Our fridge
advice:
  - id: keep_soup
    topic: storing
    kinds: [broth]
    fridge_days: [1, 2]
    say: "Eat soup within two days: our fridge is old."
    reason: Our fridge is old.
    source: own choice
    examples:
      speaks: [{lines: [4 cups chicken broth], method: Simmer the broth 20 minutes.}]
      silent: [{lines: [1 apple], method: Eat it.}]
  - id: our_apples
    topic: storing
    words: [apple]
    fridge_days: [5, 6]
    say: Apples keep in the shed.
    reason: We tried.
    source: own choice
    instead: [keep_nothing]
    examples:
      speaks: [{lines: [1 apple], method: Eat it.}]
      silent: [{lines: [1 cup water], method: Drink it.}]
`

func TestOwnKeepingAndTasteFilesArePutOverTheOthers(t *testing.T) {
	plain := library(t, nil)
	book := library(t, map[string]string{
		"keeping/ours.yaml": ownKeeping,
		"taste.yaml": `theme: Ours
fall: {unnoticed: 10, helped: 20, counts: 3, why: We notice., source: own choice}
`})
	require.Len(t, book.Faults, 1, "%v", book.Faults)
	assert.Contains(t, book.Faults.Error(), `unknown advice "keep_nothing"`)
	assert.Equal(t, 0.1, book.Taste.Fall.Unnoticed)
	assert.Equal(t, 3, book.Taste.Fall.Counts)
	says := map[string]string{}
	for _, r := range book.Keeping.Rules() {
		says[r.ID] = r.Say
	}
	assert.Contains(t, says["keep_soup"], "our fridge is old")
	assert.NotContains(t, says, "our_apples", "what is at fault is left out")
	assert.Len(t, book.Keeping.Rules(), len(plain.Keeping.Rules()))
	assert.True(t, book.Origins[kitchen.RuleKey{Sort: kitchen.KeepingAdvice, ID: "keep_soup"}].Replaces)
	assert.Equal(t, "ours", book.Origins[kitchen.RuleKey{Sort: kitchen.SaltFall, ID: "fall"}].Folder)
}

func TestACopyOfTheBuiltInRulesIsTheBuiltInRules(t *testing.T) {
	book, err := ruleset.Library(ruleset.Folder{FS: rules.FS}, []ruleset.Folder{{Name: "copy", FS: rules.FS}}, stock(t))
	require.NoError(t, err)
	assert.Empty(t, book.Faults)
	for k, o := range book.Origins {
		if k.Sort == kitchen.SwapRule {
			assert.False(t, o.Replaces, k.ID)
		}
	}
}

// FuzzOwnRules holds that no file of own rules stops the program, and that each
// fault says where it is.
func FuzzOwnRules(f *testing.F) {
	for _, name := range pairs(f) {
		for file, data := range folderOf(f, "../../testdata/rules/err/"+name+".txtar") {
			f.Add(file, data.Data)
		}
	}
	s := stock(f)
	s.Read = nil
	check := ruleset.Checker(ruleset.Folder{FS: rules.FS}, s)
	f.Fuzz(func(t *testing.T, name string, data []byte) {
		for _, dir := range []string{"swap", "need", "balance", "factor", "taste", "keeping"} {
			for _, fault := range check(ruleset.Folder{Name: "own", FS: fstest.MapFS{dir + "/own.yaml": {Data: data}}}) {
				if fault.File == "" || fault.Problem == "" {
					t.Fatalf("%q in %q: a fault without its file or problem: %v", name, dir, fault)
				}
			}
		}
	})
}
