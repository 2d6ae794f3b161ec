package sqlite

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/household"
	"potwright/internal/recipe"
	"potwright/internal/store"
)

func exec(t *testing.T, s *Store, statements ...string) {
	t.Helper()
	for _, statement := range statements {
		require.NoError(t, s.db.Exec(statement).Error, statement)
	}
}

func schemaOf(t *testing.T, s *Store) (version int, objects []string) {
	t.Helper()
	require.NoError(t, s.db.Raw("PRAGMA user_version").Scan(&version).Error)
	require.NoError(t, s.db.Raw("SELECT name || coalesce(sql, '') FROM sqlite_schema ORDER BY name").Scan(&objects).Error)
	return version, objects
}

func TestMigrate(t *testing.T) {
	ms, err := migrations()
	require.NoError(t, err)

	t.Run("an empty file gets the newest schema, and a second time nothing", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "kitchen.db")
		s := mustOpen(t, path)
		version, objects := schemaOf(t, s)
		assert.Equal(t, len(ms), version)
		require.NoError(t, s.Close())
		version, again := schemaOf(t, mustOpen(t, path))
		assert.Equal(t, len(ms), version)
		assert.Equal(t, objects, again)
	})
}

func TestMigrateRefuses(t *testing.T) {
	newest, err := NewestSchema()
	require.NoError(t, err)
	newer := fmt.Sprintf("its schema is version %d, this program knows versions up to %d: use a newer program; nothing was changed", newest+4, newest)
	t.Run("a file of a later release is refused, and no byte of it changed", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "kitchen.db")
		s := mustOpen(t, path)
		exec(t, s, fmt.Sprintf("PRAGMA user_version = %d", newest+4))
		require.NoError(t, s.Close())
		before, err := os.ReadFile(path)
		require.NoError(t, err)
		_, err = Open(path, fixedNow)
		assert.ErrorContains(t, err, newer)
		after, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, before, after)
		left, err := os.ReadDir(filepath.Dir(path))
		require.NoError(t, err)
		assert.Len(t, left, 1, "no side file, no backup")
	})
	t.Run("a later release that still has the file open is seen in the log", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "kitchen.db")
		s := mustOpen(t, path)
		exec(t, s, fmt.Sprintf("PRAGMA user_version = %d", newest+4))
		_, err := Open(path, fixedNow)
		assert.ErrorContains(t, err, newer)
		_, err = Verify(t.Context(), path)
		assert.ErrorContains(t, err, newer)
	})
	t.Run("another program's database is refused", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "kitchen.db")
		s, err := open(path, fixedNow)
		require.NoError(t, err)
		exec(t, s, "CREATE TABLE tides (height REAL)")
		require.NoError(t, s.Close())
		_, err = Open(path, fixedNow)
		assert.ErrorContains(t, err, "database of another program")
	})
	t.Run("a row that refers to nothing stops the migration, and nothing of it stays", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "kitchen.db")
		s, err := open(path, fixedNow)
		require.NoError(t, err)
		require.NoError(t, s.migrate(t.Context(), 1))
		exec(t, s, "INSERT INTO households (name, name_key) VALUES ('H', 'h')",
			"INSERT INTO recipes (household_id, title, created_at) VALUES (1, 'Soup', '2026-03-01T12:00:00.000000000Z')")
		pool, err := s.db.DB()
		require.NoError(t, err)
		pool.SetMaxOpenConns(1) // the pragma is the connection's
		exec(t, s, "PRAGMA foreign_keys = OFF", "DELETE FROM households")
		require.NoError(t, s.Close())

		_, err = Open(path, fixedNow)
		assert.ErrorContains(t, err, "refers to a row of households that is not there")
		s, err = open(path, fixedNow)
		require.NoError(t, err)
		defer s.Close()
		version, _ := schemaOf(t, s)
		assert.Equal(t, 1, version)
		assert.ErrorContains(t, s.db.Exec("SELECT 1 FROM wishes").Error, "no such table")
	})
}

func TestAFileIsCopiedBeforeItsSchemaChangesAndOnlyThen(t *testing.T) {
	path := filepath.Join(t.TempDir(), "kitchen.db")
	s, err := open(path, fixedNow)
	require.NoError(t, err)
	require.NoError(t, s.migrate(t.Context(), 1))
	exec(t, s, "INSERT INTO households (name, name_key) VALUES ('H', 'h')")
	require.NoError(t, s.Close())
	for range 2 {
		require.NoError(t, mustOpen(t, path).Close())
		copies, err := backupsOf(path)
		require.NoError(t, err)
		require.Len(t, copies, 1)
		c, err := Verify(t.Context(), copies[0].path)
		require.NoError(t, err)
		assert.Equal(t, store.Condition{Schema: 1, Households: 1}, c)
	}
}

func TestSeveralProgramsMayOpenANewFileAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "kitchen.db")
	var wg sync.WaitGroup
	errs := make([]error, 4)
	for i := range errs {
		wg.Go(func() {
			s, err := Open(path, fixedNow)
			if err == nil {
				err = s.Close()
			}
			errs[i] = err
		})
	}
	wg.Wait()
	for _, err := range errs {
		assert.NoError(t, err)
	}
}

// Damage gets past the CHECKs only from outside; STRICT columns and json_valid
// stop the rest.
func TestDamagedRowIsNamed(t *testing.T) {
	s := newStore(t)
	h, err := s.CreateHousehold(t.Context(), household.Household{Name: "H", Members: []household.Member{{Name: "Ana"}, {Name: "Ben"}}})
	require.NoError(t, err)
	v := mustRecipe(t, s, h.ID, "Soup")
	require.NoError(t, s.RememberChoice(t.Context(), h.ID, "broth", recipe.Correction{}, ""))
	alone(t, s, "PRAGMA ignore_check_constraints = ON",
		"UPDATE households SET cook_spare = '{'",
		"UPDATE choices SET correction = '[1]'",
		"UPDATE recipes SET created_at = 'yesterday'",
		"DROP TRIGGER versions_are_never_changed",
		"UPDATE versions SET corrections = '{\"x\":1}'",
	)
	for name, c := range map[string]struct {
		read func() error
		want string
	}{
		"household":  {func() error { _, err := s.FindHousehold(t.Context(), h.ID); return err }, "table households, row 1: cook_spare is damaged"},
		"households": {func() error { _, err := s.ListHouseholds(t.Context()); return err }, "table households, row 1"},
		"choices":    {func() error { _, err := s.Choices(t.Context(), h.ID); return err }, `table choices, row 1: correction of "broth" is damaged`},
		"recipe":     {func() error { _, err := s.FindRecipe(t.Context(), h.ID, v.RecipeID); return err }, "table recipes, row 1: created_at is damaged"},
		"version":    {func() error { _, err := s.FindVersion(t.Context(), h.ID, v.ID); return err }, "table versions, row 1: corrections is damaged"},
		"versions":   {func() error { _, err := s.ListVersions(t.Context(), h.ID, v.RecipeID); return err }, "table versions, row 1"},
	} {
		assert.ErrorContains(t, c.read(), c.want, name)
	}

	alone(t, s, `UPDATE versions SET corrections = '', fixes = '{"x":1}'`)
	_, err = s.FindVersion(t.Context(), h.ID, v.ID)
	require.ErrorContains(t, err, "table versions, row 1: fixes is damaged")

	alone(t, s, "UPDATE households SET cook_spare = '[]'", `UPDATE members SET limits = '[{"nutrient":"magic"}]' WHERE position = 1`)
	_, err = s.FindHousehold(t.Context(), h.ID)
	assert.ErrorContains(t, err, "table members, row 2: limits is damaged")
	assert.ErrorContains(t, err, "magic")
}
