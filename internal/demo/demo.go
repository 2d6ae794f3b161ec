// Package demo is an invented household of four and its five dishes.
package demo

import (
	"bytes"
	"context"
	"embed"
	"fmt"
	"slices"

	"potwright/internal/kitchen"
	"potwright/internal/ruleset"
)

//go:embed household.yaml dishes/*.txt
var files embed.FS

// Dishes lists the names of the demo's recipe files, in the order shown.
func Dishes() []string {
	return []string{"fish-chowder", "bean-and-sausage-stew", "baked-pasta", "stir-fry", "muffins"}
}

// Dish is the text of one recipe by name.
func Dish(name string) (string, error) {
	text, err := files.ReadFile("dishes/" + name + ".txt")
	if err != nil {
		return "", fmt.Errorf("demo dish %q: %w", name, err)
	}
	return string(text), nil
}

// Fill saves the household and its dishes into the kitchen's store.
func Fill(ctx context.Context, k *kitchen.Kitchen) error {
	text, err := files.ReadFile("household.yaml")
	if err != nil {
		return fmt.Errorf("demo household: %w", err)
	}
	h, err := ruleset.ReadHousehold(bytes.NewReader(text), "household.yaml")
	if err != nil {
		return err
	}
	if h, err = k.Store.CreateHousehold(ctx, h); err != nil {
		return fmt.Errorf("save the demo household: %w", err)
	}
	// The newest stands first in a list, so the first dish is saved last.
	for _, name := range slices.Backward(Dishes()) {
		text, err := Dish(name)
		if err != nil {
			return err
		}
		a, err := k.Read(text, nil, nil)
		if err != nil {
			return fmt.Errorf("read the demo dish %q: %w", name, err)
		}
		if _, err := k.SaveNew(ctx, h.ID, a, "as written"); err != nil {
			return fmt.Errorf("save the demo dish %q: %w", name, err)
		}
	}
	return nil
}
