package server_test

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"log/slog"
	"maps"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/daybook"
	"potwright/internal/household"
	"potwright/internal/photo"
	"potwright/internal/product"
	"potwright/internal/recipe"
	"potwright/internal/server"
	"potwright/internal/spread"
	"potwright/internal/store/sqlite"
	"potwright/internal/testkit/datafile"
)

// saving is one kind of save, the n-th of a walk, with recipe r of household 1.
type saving func(ctx context.Context, s *sqlite.Store, n int, r int64) error

// savings are a save of every kind that a page may show.
func savings() map[string]saving {
	return map[string]saving{
		"a version": func(ctx context.Context, s *sqlite.Store, n int, r int64) error {
			sum, err := s.FindRecipe(ctx, 1, r)
			if err != nil {
				return err
			}
			_, err = s.AddVersion(ctx, 1, fmt.Sprint("Pot ", n), recipe.Version{RecipeID: r, ParentID: sum.LatestID, Note: "more", Text: fmt.Sprintf("Pot %d\n\nServes 4\n\n%d cups chicken broth\n1 cup milk\n\nSimmer for %d minutes.\n", n, 2+n, 5+n)})
			return err
		},
		"a recipe": func(ctx context.Context, s *sqlite.Store, n int, _ int64) error {
			_, err := s.CreateRecipe(ctx, 1, fmt.Sprint("Bread ", n), recipe.Version{Text: "Bread\n\nServes 2\n\n1 cup flour\n1 tsp salt\n\nBake it."})
			return err
		},
		"wishes": func(ctx context.Context, s *sqlite.Store, n int, r int64) error {
			return s.SaveWishes(ctx, 1, r, adaptation.Wishes{MaxChanges: n%3 + 1}, "")
		},
		"tags": func(ctx context.Context, s *sqlite.Store, n int, r int64) error {
			return s.SetTags(ctx, 1, r, []string{fmt.Sprint("shelf ", n)}, "")
		},
		"a refusal": func(ctx context.Context, s *sqlite.Store, n int, _ int64) error {
			return s.Refuse(ctx, 1, "low-sodium-broth", n%2 == 1)
		},
		"what a phrase means": func(ctx context.Context, s *sqlite.Store, n int, _ int64) error {
			if n%2 == 0 {
				return s.ForgetChoice(ctx, 1, "chicken broth", "")
			}
			return s.RememberChoice(ctx, 1, "chicken broth", recipe.Correction{FoodID: "sr:14411"}, "")
		},
		"a product": func(ctx context.Context, s *sqlite.Store, n int, _ int64) error {
			_, err := s.SaveProduct(ctx, 1, product.Product{Label: product.Label{Name: fmt.Sprint("chicken broth ", n), Panel: product.US, Serving: "240 mL", Figures: map[string]string{"sodium_mg": "70 mg"}}}, "")
			return err
		},
		"people": func(ctx context.Context, s *sqlite.Store, n int, _ int64) error {
			h, err := s.FindHousehold(ctx, 1)
			if err == nil {
				h.Name, h.Members = fmt.Sprint("Lane ", n), append(h.Members, household.Member{Name: fmt.Sprint("Guest ", n), Portion: 1})
				_, err = s.SaveHousehold(ctx, h, "")
			}
			return err
		},
		"a photo": func(ctx context.Context, s *sqlite.Store, n int, r int64) error {
			p := photo.Picture{Large: photo.Image{JPEG: []byte(fmt.Sprint("large ", r, n)), Width: 16, Height: 12}, Small: photo.Image{JPEG: []byte("small"), Width: 4, Height: 3}}
			kept, err := s.AddPhoto(ctx, 1, photo.Photo{RecipeID: r, Digest: p.Digest(), Picture: p, AddedAt: time.Now()})
			if err == nil {
				kept.Caption = fmt.Sprint("by the stove ", n)
				err = s.SavePhoto(ctx, 1, kept, "")
			}
			return err
		},
		"how it turned out": func(ctx context.Context, s *sqlite.Store, n int, r int64) error {
			sum, err := s.FindRecipe(ctx, 1, r)
			if err == nil {
				_, err = s.SaveMade(ctx, 1, daybook.Made{VersionID: sum.LatestID, Date: daybook.DateOf(time.Now()), Rating: 3, Remark: fmt.Sprint("too thin ", n)})
			}
			return err
		},
		"what was eaten": func(ctx context.Context, s *sqlite.Store, n int, _ int64) error {
			h, err := s.FindHousehold(ctx, 1)
			if err == nil {
				_, err = s.AddEntries(ctx, 1, []daybook.Entry{{MemberID: h.Members[0].ID, Date: daybook.DateOf(time.Now()), Meal: daybook.Morning, State: daybook.Eaten, FoodID: "sr:14411", Title: fmt.Sprint("broth ", n), Grams: spread.Exact(200)}})
			}
			return err
		},
		"what is frozen": func(ctx context.Context, s *sqlite.Store, n int, r int64) error {
			sum, err := s.FindRecipe(ctx, 1, r)
			if err == nil {
				_, err = s.PutIn(ctx, 1, []daybook.Container{{VersionID: sum.LatestID, Title: fmt.Sprint("box ", n), Portion: 1, Frozen: daybook.DateOf(time.Now())}})
			}
			return err
		},
	}
}

// shown are pages that show what is saved, of the whole household and of each recipe.
func shown() []string {
	all := []string{"table", "table?dish=2", "recipes", "recipes?q=pot", "people", "people/1", "day", "week", "freezer", "pantry", "shopping", "recipes/2?like=1"}
	for _, r := range []string{"recipes/1", "recipes/2"} {
		for _, part := range []string{"", "/adapt", "/adapt?today=1", "/versions", "/versions/1", "/card", "/cook", "/portions", "/made", "/photos", "/edit", "/lines/1", "/share"} {
			all = append(all, r+part)
		}
	}
	return all
}

// remembering is a server that remembers its pages, over a file that others open too.
type remembering struct {
	t               *testing.T
	file            string
	here, elsewhere *sqlite.Store
	warm            http.Handler
}

func newRemembering(t *testing.T) remembering {
	t.Helper()
	w := remembering{t: t, file: datafile.Empty(t)}
	w.here, w.warm = w.open()
	w.elsewhere, _ = w.open()
	_, err := w.here.CreateHousehold(t.Context(), household.Household{Name: "Quay Lane", Members: []household.Member{{Name: "Ana", Portion: 1}}})
	require.NoError(t, err)
	for i := range 2 {
		_, err := w.here.CreateRecipe(t.Context(), 1, fmt.Sprint("Pot ", i), recipe.Version{Text: potText})
		require.NoError(t, err)
	}
	return w
}

// open is what a process that has just been started has.
func (w remembering) open() (*sqlite.Store, http.Handler) {
	store, err := sqlite.Open(w.file, time.Now)
	require.NoError(w.t, err)
	w.t.Cleanup(func() { require.NoError(w.t, store.Close()) })
	cfg := config(w.t, store)
	cfg.Log = slog.New(slog.DiscardHandler)
	handler, err := server.New(cfg)
	require.NoError(w.t, err)
	return store, handler
}

func pageOf(handler http.Handler, at string) string {
	w := httptest.NewRecorder()
	handler.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "http://localhost/h/1/"+at, nil))
	return fmt.Sprint(w.Code, " ", w.Body)
}

// stale looks at pages, saves, and gives those that are not what they are to a process
// that looks at them for the first time.
func (w remembering) stale(looked []string, save func() error) (pages []string) {
	w.t.Helper()
	for _, at := range looked {
		pageOf(w.warm, at)
	}
	_, fresh := w.open()
	require.NoError(w.t, save())
	for _, at := range looked {
		if pageOf(fresh, at) != pageOf(w.warm, at) {
			pages = append(pages, at)
		}
	}
	return pages
}

// TestWhateverIsSavedEveryPageIsThatOfAFreshProcess saves in every way once, in an order
// of chance, here or by another opening of the file, and holds some of the pages of a
// server that remembers against those of one that was asked for none before.
func TestWhateverIsSavedEveryPageIsThatOfAFreshProcess(t *testing.T) {
	w := newRemembering(t)
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	draw := rand.New(rand.NewPCG(seed, 0))
	all := savings()
	kinds := slices.Sorted(maps.Keys(all))
	draw.Shuffle(len(kinds), func(i, j int) { kinds[i], kinds[j] = kinds[j], kinds[i] })
	if testing.Short() {
		kinds = kinds[:4]
	}
	for n, kind := range kinds {
		on, place := w.here, "here"
		if draw.IntN(2) == 1 {
			on, place = w.elsewhere, "elsewhere"
		}
		r, looked := draw.Int64N(2)+1, shown()
		draw.Shuffle(len(looked), func(i, j int) { looked[i], looked[j] = looked[j], looked[i] })
		stale := w.stale(looked[:8], func() error { return all[kind](t.Context(), on, n, r) })
		assert.Empty(t, stale, "%s saved with recipe %d %s", kind, r, place)
	}
}

// TestASaveThatIsNotNotedIsFoundOut takes from each table in turn what notes its saves,
// and finds that the comparison above tells the page that is then stale.
func TestASaveThatIsNotNotedIsFoundOut(t *testing.T) {
	w := newRemembering(t)
	db, err := sql.Open("sqlite", "file:"+w.file+"?_pragma=busy_timeout(10000)")
	require.NoError(t, err)
	defer db.Close()
	all, tried := savings(), 0
	for kind, c := range map[string]struct {
		tables []string
		page   string
	}{
		"a version":           {[]string{"versions", "recipes"}, "recipes/1"},
		"a recipe":            {[]string{"versions", "recipes"}, "recipes"},
		"wishes":              {[]string{"wishes"}, "recipes/1/adapt"},
		"tags":                {[]string{"tags"}, "recipes/1"},
		"a refusal":           {[]string{"refusals"}, "recipes/1/adapt"},
		"what a phrase means": {[]string{"choices"}, "recipes/1/lines/1"},
		"a product":           {[]string{"products"}, "pantry"},
		"people":              {[]string{"households", "members"}, "people"},
		"a photo":             {[]string{"photos"}, "recipes/1/photos"},
		"how it turned out":   {[]string{"made"}, "recipes/1/made"},
		"what was eaten":      {[]string{"entries"}, "day"},
		"what is frozen":      {[]string{"containers"}, "freezer"},
	} {
		tried++
		var notes []string
		stale := w.stale([]string{c.page}, func() error {
			notes = dropNotes(t, db, c.tables)
			return all[kind](t.Context(), w.here, 1, 1)
		})
		assert.Equal(t, []string{c.page}, stale, kind)
		for _, statement := range notes {
			_, err := db.ExecContext(t.Context(), statement)
			require.NoError(t, err)
		}
	}
	assert.Len(t, all, tried, "every kind of save")
}

// dropNotes drops the triggers that note the saves of tables, and gives the statements
// that make them again.
func dropNotes(t *testing.T, db *sql.DB, tables []string) (again []string) {
	t.Helper()
	for _, table := range tables {
		for _, event := range []string{"inserted", "updated", "deleted"} {
			var statement string
			err := db.QueryRowContext(t.Context(), "SELECT sql FROM sqlite_schema WHERE type = 'trigger' AND name = ?", table+"_"+event).Scan(&statement)
			if errors.Is(err, sql.ErrNoRows) {
				continue // a version is never changed
			}
			require.NoError(t, err)
			_, err = db.ExecContext(t.Context(), "DROP TRIGGER "+table+"_"+event)
			require.NoError(t, err)
			again = append(again, statement)
		}
	}
	return again
}
