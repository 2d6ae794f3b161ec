package cli_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/cli"
	"potwright/internal/testkit"
)

// badInput is one call that can't be done: what is given, and words of the sentence
// that says what to do.
type badInput struct {
	name, args, in, env string
	says                string
}

// badInputs are the command line's part of the bad inputs; forms and files sent to
// the pages are in internal/server, rule files in testdata/rules/err, damaged
// archives and data files with their packages.
func badInputs() []badInput {
	return []badInput{
		{name: "no command that exists", args: "anlyse soup.txt", says: `did you mean "analyse"?`},
		{name: "a command of nonsense", args: "xyzzy", says: "potwright help lists the commands"},
		{name: "help on nothing", args: "help xyzzy", says: "potwright help lists the commands"},
		{name: "a flag that is none", args: "read --colour soup.txt", says: "there is no flag --colour; potwright read -h lists the flags"},
		{name: "a flag without value", args: "read --format", says: "--format has no value; expected text or json behind it"},
		{name: "no recipe", args: "read", says: "expected a file name, or - for standard input"},
		{name: "a recipe that is not there", args: "read nowhere.txt", says: `there is no file "nowhere.txt"`},
		{name: "a folder for a recipe", args: "read folder", says: "is a folder; expected a file"},
		{name: "an empty recipe", args: "read empty.txt", says: "the text is empty; expected a recipe"},
		{name: "an empty standard input", args: "read -", says: "the text is empty"},
		{name: "blanks", args: "read -", in: " \n\t \n", says: "the text is empty"},
		{name: "a picture", args: "read picture.png", says: "it may be a picture or a document file; expected plain text"},
		{name: "broken letters", args: "read -", in: strings.Repeat("\xff\xfe\x80", 50), says: "expected plain text in UTF-8"},
		{name: "a title alone", args: "analyse -", in: "A title and nothing else", says: `expected lines such as "2 cups flour"`},
		{name: "two megabytes", args: "analyse -", in: "Soup\n" + strings.Repeat("1 cup flour\n", 200_000), says: "a recipe is at most 1 MB"},
		{name: "a thousand ingredients", args: "analyse -", in: "Soup\nIngredients\n" + strings.Repeat("1 cup flour\n", 1000), says: "a recipe has at most 150"},
		{name: "a web page without a recipe", args: "read -", in: "<html><p>Nothing here</p></html>", says: "copy its title, ingredients and method"},
		{name: "a page in microdata", args: "read -", in: `<html><div itemtype="https://schema.org/Recipe">x</div></html>`, says: "microdata or RDFa, which can't be read"},
		{name: "broken JSON-LD", args: "read -", in: "{\"@type\": \"Recipe\",\n\"name\":", says: "the recipe's JSON-LD is broken"},
		{name: "JSON that is no recipe", args: "read -", in: `{"@type":"Person"}`, says: "no recipe that can be found in it"},
		{name: "JSON-LD without ingredients", args: "read -", in: `{"@type":"Recipe","name":"Stew"}`, says: "no ingredient line was found"},
		{name: "a format that is none", args: "analyse --format xml soup.txt", says: `--format "xml" is not known; expected text or json`},
		{name: "a report's format that is none", args: "report --format pdf soup.txt", says: `--format "pdf" is not known; expected text, csv or json`},
		{name: "a form of recipe that is none", args: "convert --format docx soup.txt", says: "expected text, markdown or jsonld"},
		{name: "a system of cups that is none", args: "read --measures fr soup.txt", says: "expected us, uk, au or metric"},
		{name: "no household", args: "check soup.txt", says: "no household; expected --household FILE"},
		{name: "a household that is not there", args: "check --household nowhere.yaml soup.txt", says: "there is no household file"},
		{name: "a folder for a household", args: "check --household folder soup.txt", says: "is a folder; expected a household file"},
		{name: "an empty household file", args: "check --household empty.txt soup.txt", says: "expected"},
		{name: "a recipe for a household", args: "check --household soup.txt soup.txt", says: "expected"},
		{name: "a picture for a household", args: "check --household picture.png soup.txt", says: "expected"},
		{name: "a household of nobody", args: "check --household nobody.yaml soup.txt", says: "expected"},
		{name: "a nutrient that is none", args: "check --household nutrient.yaml soup.txt", says: "sodium_mg"},
		{name: "a negative limit", args: "check --household negative.yaml soup.txt", says: "expected"},
		{name: "a texture level of 9", args: "check --household texture.yaml soup.txt", says: "expected"},
		{name: "a misspelt key", args: "check --household key.yaml soup.txt", says: "limits"},
		{name: "half a household file", args: "check --household half.yaml soup.txt", says: "half.yaml:"},
		{name: "a lock in words", args: "adapt --household home.yaml --lock two soup.txt", says: "is no line number; expected 1, 2, 3"},
		{name: "a lock on line 0", args: "adapt --household home.yaml --lock 0 soup.txt", says: "is no line number"},
		{name: "a lock past the end", args: "adapt --household home.yaml --lock 99 soup.txt", says: "the recipe has 3 ingredient lines"},
		{name: "a refused rule that is none", args: "adapt --household home.yaml --refuse broth-no-salt-aded soup.txt", says: "there is no rule"},
		{name: "an insisted pick without a rule", args: "adapt --household home.yaml --insist 2: soup.txt", says: "expected LINE:RULE"},
		{name: "a cap in words", args: "adapt --household home.yaml --max-changes few soup.txt", says: `--max-changes is "few"; expected a whole number`},
		{name: "a proof of two recipes", args: "adapt --household home.yaml --certificate p.txt soup.txt soup.txt", says: "holds the proof of one recipe"},
		{name: "no number of servings", args: "scale soup.txt", says: "expected --servings N"},
		{name: "servings in words", args: "scale --servings six soup.txt", says: `--servings is "six"; expected a number`},
		{name: "servings below nothing", args: "scale --servings -2 soup.txt", says: "expected"},
		{name: "servings of infinity", args: "scale --servings Inf soup.txt", says: "expected"},
		{name: "no words to look for", args: "foods", says: "expected, for example, potwright foods chicken broth"},
		{name: "foods from nowhere", args: "foods import nowhere.csv", says: `there is no file or folder of foods "nowhere.csv"`},
		{name: "foods from a recipe", args: "foods import --to f soup.txt", says: "expected"},
		{name: "rules in a folder that is not there", args: "analyse --rules nowhere soup.txt", says: `there is no folder "nowhere"`},
		{name: "a file for a folder of rules", args: "analyse --rules soup.txt soup.txt", says: "is a file; expected the folder that holds it"},
		{name: "rules named by the environment that are not there", args: "analyse soup.txt", env: "POTWRIGHT_RULES=nowhere", says: `there is no folder "nowhere"`},
		{name: "rules with a word too many", args: "rules list", says: "expected rules check [FOLDER ...]"},
		{name: "a rules folder half written", args: "rules check half-rules", says: "half-rules/swap/half.yaml"},
		{name: "a sweep of nothing", args: "sweep", says: "expected --data FILE, --server URL, or --household FILE and recipe files"},
		{name: "a sweep of no data file", args: "sweep --data nowhere.db", says: `there is no data file "nowhere.db"`},
		{name: "a sweep of text", args: "sweep --data soup.txt", says: "not an SQLite database"},
		{name: "a sweep of both", args: "sweep --data nowhere.db soup.txt", says: "takes no recipe file"},
		{name: "a server with nowhere to keep", args: "serve", says: "expected --data FILE, or --demo to look around"},
		{name: "a server with a file too many", args: "serve --demo soup.txt", says: "takes no file"},
		{name: "a server on a text file", args: "serve --data soup.txt", says: "not an SQLite database"},
		{name: "a server in a folder that is not there", args: "serve --data nowhere/kitchen.db", says: `there is no folder "nowhere"; make it first`},
		{name: "a server on a folder", args: "serve --data folder", says: "it is a folder; expected the file"},
		{name: "an address without port", args: "serve --demo --address 127.0.0.1", says: "is not host:port; expected one such as 127.0.0.1:8097"},
		{name: "an address with a port too high", args: "serve --demo --address 127.0.0.1:99999", says: "expected a number from 0 to 65535 behind the colon"},
		{name: "backups below nothing", args: "serve --demo --keep-backups -1", says: "expected 0 or more"},
		{name: "a backup of nothing", args: "backup copy.db", says: "expected potwright backup --data FILE COPY"},
		{name: "a backup of no data file", args: "backup --data nowhere.db copy.db", says: `there is no data file "nowhere.db"`},
		{name: "a backup of text", args: "backup --data soup.txt copy.db", says: "not an SQLite database"},
		{name: "a backup to nowhere named", args: "backup --data nowhere.db", says: "0 files given"},
		{name: "a check of no backup", args: "backup check", says: "expected potwright backup check FILE"},
		{name: "a check of text", args: "backup check soup.txt", says: "not an SQLite database"},
		{name: "a check of an empty file", args: "backup check empty.txt", says: "an empty"},
		{name: "a restore of no file", args: "restore --data kitchen.db nowhere.db", says: `there is no file "nowhere.db"`},
		{name: "a restore of text", args: "restore --data kitchen.db soup.txt", says: "nothing was changed"},
		{name: "an export of no data file", args: "export --data nowhere.db all.zip", says: `there is no data file "nowhere.db"`},
		{name: "an export over a file", args: "export --data nowhere.db soup.txt", says: "was left as it is"},
		{name: "an import of no file", args: "import --data kitchen.db nowhere.zip", says: `there is no file "nowhere.zip"`},
		{name: "an import of text", args: "import --data kitchen.db soup.txt", says: "this is not an archive"},
		{name: "an import without a file", args: "import --data kitchen.db", says: "expected potwright import --data FILE ARCHIVE.zip"},
		{name: "foods named by the environment that are not there", args: "analyse soup.txt", env: "POTWRIGHT_FOODS=nowhere", says: `there is no folder "nowhere"`},
		{name: "foods named by the environment that are a file", args: "analyse soup.txt", env: "POTWRIGHT_FOODS=soup.txt", says: "is a file; expected the folder"},
		{name: "rules named by the environment that are a file", args: "analyse soup.txt", env: "POTWRIGHT_RULES=soup.txt", says: "is a file; expected the folder"},
		{name: "a data file of the environment that is not there", args: "sweep", env: "POTWRIGHT_DATA=nowhere.db", says: `there is no data file "nowhere.db"`},
		{name: "a data file of the environment that is text", args: "sweep", env: "POTWRIGHT_DATA=soup.txt", says: "not an SQLite database"},
		{name: "a data file of the environment that is a folder", args: "serve", env: "POTWRIGHT_DATA=folder", says: "it is a folder; expected the file"},
		{name: "a database of the environment of another kind", args: "sweep", env: "POTWRIGHT_DATA=mysql://ana@127.0.0.1/kitchen", says: "expected a file, or postgres://"},
		{name: "a database of the environment that can't be read", args: "sweep", env: "POTWRIGHT_DATA=postgres://ana:a/%zz@127.0.0.1/kitchen", says: "%2F for /"},
		{name: "a database of the environment that is away", args: "sweep", env: "POTWRIGHT_DATA=postgres://ana@127.0.0.1:1/kitchen", says: "the database does not answer"},
		{name: "two places, one of the environment", args: "sweep --data kitchen.db --server http://127.0.0.1:1", says: "are two places; expected one of them"},
		{name: "a server of the environment that is no address", args: "sweep", env: "POTWRIGHT_SERVER=kitchen", says: "expected"},
		{name: "a server of the environment that is no web address", args: "sweep", env: "POTWRIGHT_SERVER=ftp://127.0.0.1/", says: "expected"},
		{name: "a server of the environment that is not there", args: "sweep", env: "POTWRIGHT_SERVER=http://127.0.0.1:1", says: "no server answers"},
		{name: "a token of the environment that breaks a line", args: "sweep --server http://127.0.0.1:1", env: "POTWRIGHT_TOKEN=a\nb", says: "the token of POTWRIGHT_TOKEN is none; expected one line"},
		{name: "a photo of no recipe", args: "photo list --data kitchen.db", says: "with --recipe TITLE"},
		{name: "a photo in no data file", args: "photo list --data nowhere.db --recipe 1", says: `there is no data file "nowhere.db"`},
		{name: "a certificate file alone", args: "serve --demo --tls-cert soup.txt", says: "--tls-cert and --tls-key belong together"},
		{name: "a certificate that is none", args: "serve --demo --address 127.0.0.1:0 --tls-cert soup.txt --tls-key soup.txt", says: "expected"},
		{name: "another computer's address without a passphrase", args: "serve --demo --address 0.0.0.0:0", says: "set a passphrase first"},
		{name: "a switch with words", args: "serve --demo=maybe", says: `--demo is "maybe"; expected true or false`},
		{name: "a passphrase as an argument", args: "passphrase set --data kitchen.db secret-words", says: "a passphrase is not given as an argument"},
		{name: "a passphrase too short", args: "passphrase set --data kitchen.db", in: "short\n", says: "use at least 15"},
		{name: "no passphrase", args: "passphrase set --data kitchen.db", says: "the passphrase has 0 characters"},
		{name: "diagnosis of nothing", args: "diagnose", says: "expected potwright diagnose --data FILE"},
		{name: "a shell that is not known", args: "completion tcsh", says: "expected bash, zsh or fish"},
		{name: "a proof that is not there", args: "check --certificate nowhere.txt", says: `there is no file "nowhere.txt"`},
		{name: "a proof that is none", args: "check --certificate soup.txt", says: "soup.txt:1:1:"},
	}
}

const soup = "Bean soup\nServes 4\n\nIngredients\n2 cups white beans\n4 cups chicken broth\n1 tsp salt\n\nMethod\nSimmer for an hour.\n"

func badInputFiles() map[string]string {
	member := "household: H\nmembers:\n  - name: A\n    "
	return map[string]string{
		"soup.txt": soup, "empty.txt": "", "picture.png": "\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR", "folder/x.txt": "x",
		"home.yaml":   member + "limits: [{nutrient: sodium_mg, at_most: 600, per: meal, set_by: clinician}]\n",
		"nobody.yaml": "household: H\nmembers: []\n", "nutrient.yaml": member + "limits: [{nutrient: sodium_g, at_most: 600, per: meal, set_by: clinician}]\n",
		"negative.yaml": member + "limits: [{nutrient: sodium_mg, at_most: -5, per: meal, set_by: clinician}]\n",
		"texture.yaml":  member + "texture: {level: 9}\n", "key.yaml": member + "limit: []\n", "half.yaml": member + "limits: [{nutrient: sodium_mg, at_mo",
		"half-rules/swap/half.yaml": "- id: half-a-rule\n  title: Half\n  match:\n    foo",
	}
}

func TestEveryBadInputGetsASentenceThatSaysWhatToDo(t *testing.T) {
	cases := badInputs()
	t.Logf("%d calls", len(cases))
	dir := t.TempDir()
	for name, content := range badInputFiles() {
		require.NoError(t, os.MkdirAll(filepath.Join(dir, filepath.Dir(name)), 0o700))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(content), 0o600))
	}
	t.Chdir(dir)
	before := snapshot(t, dir)
	for i, c := range cases {
		if testing.Short() && i%5 != 0 {
			continue
		}
		t.Run(c.name, func(t *testing.T) {
			if name, value, ok := strings.Cut(c.env, "="); ok {
				t.Setenv(name, value)
			}
			var out, errs bytes.Buffer
			status := cli.Main(strings.Fields(c.args), strings.NewReader(c.in), &out, &errs)
			said := errs.String() + out.String()
			assert.Contains(t, []int{1, 2}, status, said)
			assert.Contains(t, said, c.says)
			t.Log(c.args, "=>", said)
			testkit.InWords(t, said)
			assert.Equal(t, before, snapshot(t, dir), "no file is made, changed or lost")
		})
	}
}

// snapshot is what a folder holds.
func snapshot(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.Walk(dir, func(path string, info os.FileInfo, err error) error {
		if err != nil || info.IsDir() {
			return err
		}
		b, err := os.ReadFile(path)
		out[path] = string(b)
		return err
	}))
	return out
}
