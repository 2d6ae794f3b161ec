package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"potwright/internal/recipe"
)

// tieCorrections ties the corrections that were kept by the number of their line to its
// words, once and for all: a number means what it did as long as the text is read as it
// was then.
func tieCorrections(ctx context.Context, tx *sql.Tx) error {
	ids, err := column[int64](ctx, tx, "SELECT DISTINCT recipe_id FROM versions WHERE fixes NOT IN ('{}', 'null')")
	if err != nil {
		return err
	}
	for _, id := range ids {
		if err := tieRecipe(ctx, tx, id); err != nil {
			return fmt.Errorf("recipe %d: %w", id, err)
		}
	}
	_, err = tx.ExecContext(ctx, "UPDATE versions SET corrections = 'null' WHERE fixes IN ('{}', 'null')")
	return err
}

// tieRecipe does so for the versions of one recipe.
func tieRecipe(ctx context.Context, tx *sql.Tx, recipeID int64) error {
	vs, numbered, err := numberedVersions(ctx, tx, recipeID)
	if err != nil {
		return err
	}
	recipe.TieNumbered(vs, numbered)
	for _, v := range vs {
		if len(numbered[v.ID]) == 0 {
			continue
		}
		text, err := encode("corrections", v.Corrections)
		if err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, "UPDATE versions SET corrections = $1 WHERE id = $2", text, v.ID); err != nil {
			return err
		}
	}
	return nil
}

// numberedVersions are a recipe's versions, as far as TieNumbered looks at them, with
// their corrections by number. One that is damaged is left out, for whoever opens it to
// be told.
func numberedVersions(ctx context.Context, tx *sql.Tx, recipeID int64) (vs []recipe.Version, numbered map[int64]map[int]recipe.Correction, err error) {
	rows, err := tx.QueryContext(ctx, "SELECT id, coalesce(parent_id, 0), body, fixes, changes FROM versions WHERE recipe_id = $1 ORDER BY number", recipeID)
	if err != nil {
		return nil, nil, err
	}
	defer rows.Close()
	numbered = map[int64]map[int]recipe.Correction{}
	for rows.Next() {
		var v recipe.Version
		var fixes, changes string
		if err := rows.Scan(&v.ID, &v.ParentID, &v.Text, &fixes, &changes); err != nil {
			return nil, nil, err
		}
		var of map[int]recipe.Correction
		at := place{"versions", v.ID}
		if errors.Join(at.decode("fixes", fixes, &of), at.decode("changes", changes, &v.Changes)) != nil {
			continue
		}
		vs, numbered[v.ID] = append(vs, v), of
	}
	return vs, numbered, rows.Err()
}

// column is the only column of a query.
func column[T any](ctx context.Context, tx *sql.Tx, query string) (out []T, err error) {
	rows, err := tx.QueryContext(ctx, query)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var value T
		if err := rows.Scan(&value); err != nil {
			return nil, err
		}
		out = append(out, value)
	}
	return out, rows.Err()
}
