// Package kitchen is the use cases: read, analyse, check, adapt, save. The
// command line, pages and any other door call it, so they cannot disagree.
package kitchen

import (
	"context"
	"errors"
	"time"

	"potwright/internal/adaptation"
	"potwright/internal/household"
	"potwright/internal/photo"
	"potwright/internal/product"
	"potwright/internal/recipe"
)

// Errors of a Store.
var (
	ErrNotFound = errors.New("not found")
	ErrTaken    = errors.New("name already taken")
	// What is kept can't be written for now; nothing was half saved.
	ErrNoRoom   = errors.New("the disk is full: free some space and do it again; nothing was saved")
	ErrReadOnly = errors.New("the data can't be written to: see that its disk, its folder and its file, or the database, may be written; nothing was saved")
	ErrBusy     = errors.New("another program holds the data: end it or wait, and do it again; nothing was saved")
	// ErrTooLong is given where the database can't find again what is so long.
	ErrTooLong = errors.New("a name or a phrase is too long to be kept: shorten it; nothing was saved")
	// ErrAway leaves open whether what was under way was saved.
	ErrAway = errors.New("the database does not answer: see that its server runs and can be reached from here")
)

// AskAgain is how long to wait before asking again after ErrBusy or ErrAway. A design
// choice.
const AskAgain = 5 * time.Second

// RecipeSummary is a recipe in a list.
type RecipeSummary struct {
	ID        int64
	Title     string
	Versions  int
	LatestID  int64 // id of the newest version
	CreatedAt time.Time
	SavedAt   time.Time // of the newest version
}

// Shelf is what the use cases themselves look up and save; a Store is one, and so is
// the way to a server that has one. Everything but households is found by household
// as well as by id, so one household never sees another's. Every Find returns
// ErrNotFound where there is none; Lists return nothing.
type Shelf interface {
	// CreateHousehold saves a new household with its members and returns it with
	// ids. ErrTaken where the name is used.
	CreateHousehold(ctx context.Context, h household.Household) (household.Household, error)
	FindHousehold(ctx context.Context, id int64) (household.Household, error)
	ListHouseholds(ctx context.Context) ([]household.Household, error)
	// SaveHousehold replaces the household's settings and members; members keep
	// their ids. ErrTaken where two members share a name, ErrChanged where what is
	// there is not what over marks.
	SaveHousehold(ctx context.Context, h household.Household, over Mark) (household.Household, error)

	ListRecipes(ctx context.Context, householdID int64) ([]RecipeSummary, error)
	// FindRecipes gives the recipes asked for, the one saved last first, and how many
	// there are in all.
	FindRecipes(ctx context.Context, householdID int64, q RecipeQuery) (list []RecipeSummary, all int, err error)
	// CreateRecipe saves a recipe with its first version and returns that version.
	CreateRecipe(ctx context.Context, householdID int64, title string, v recipe.Version) (recipe.Version, error)
	// AddVersion saves a further version of v.RecipeID, which goes by the title from
	// now on (an empty one leaves it); its number follows the
	// last. ErrNotFound where the parent is not a version of that recipe.
	AddVersion(ctx context.Context, householdID int64, title string, v recipe.Version) (recipe.Version, error)
	FindVersion(ctx context.Context, householdID, versionID int64) (recipe.Version, error)
	// FindWritten gives by id what versions of the household's recipes are read from, for
	// many at once. ErrNotFound where one is not there.
	FindWritten(ctx context.Context, householdID int64, versionIDs []int64) (map[int64]recipe.Written, error)

	// Choices are the household's remembered corrections by food phrase.
	Choices(ctx context.Context, householdID int64) (map[string]recipe.Correction, error)
	// ListProducts gives the labels of the household's pantry by name.
	ListProducts(ctx context.Context, householdID int64) ([]product.Product, error)
	// Wishes are the locks, refusals and caps kept with a recipe.
	Wishes(ctx context.Context, householdID, recipeID int64) (adaptation.Wishes, error)
	// Refusals gives the ids of the swap rules never to be suggested, in order.
	Refusals(ctx context.Context, householdID int64) ([]string, error)

	// AddPhoto keeps a new photo with p.RecipeID; the first one stands for the dish.
	// ErrNotFound where the household has no such recipe, ErrPhotoThere where the recipe
	// has the picture, ErrPhotosFull where it has as many as it may.
	AddPhoto(ctx context.Context, householdID int64, p photo.Photo) (photo.Photo, error)

	// Holdings gives everything kept for a household, as of one moment; where recipes
	// are asked for, of its recipes those alone. The files of photos stay where they
	// are, with the album, which holds until the shelf is closed.
	Holdings(ctx context.Context, householdID int64, recipeIDs ...int64) (Holdings, error)
	// TakeHoldings saves whole households as new ones, all or none, with new ids;
	// numbers, times and ties between rows stay. ErrTaken where a name is used.
	TakeHoldings(ctx context.Context, all []Holdings) ([]household.Household, error)
	// TakeRecipes adds the recipes of h, and the products they are tied to, to a
	// household, all or none, and gives the recipes' ids. A product whose name the
	// household has already is not added: lines go by the household's own.
	TakeRecipes(ctx context.Context, householdID int64, h Holdings) ([]int64, error)
}

// Revised tells whether what was asked for before still holds.
type Revised interface {
	// Revision names what is saved now: two that are equal say that no program saved
	// anything in between, of any household, and none ever comes back. One asked for
	// before other questions stands for their answers or for earlier ones, never for
	// later ones. It costs far less than a question.
	Revision(ctx context.Context) (string, error)
	// RevisionOf is Revision, but may stay as it was where what is saved belongs to
	// another recipe: its versions, title, tags, photos and wishes. 0 is no recipe.
	RevisionOf(ctx context.Context, recipeID int64) (string, error)
}

// Store keeps households and all that is theirs.
type Store interface {
	Shelf
	Revised

	// ListVersions gives a recipe's versions, oldest first.
	ListVersions(ctx context.Context, householdID, recipeID int64) ([]recipe.Version, error)
	FindRecipe(ctx context.Context, householdID, recipeID int64) (RecipeSummary, error)

	// RememberChoice keeps a correction for a food phrase, in place of an earlier one;
	// ErrChanged where that is not what over marks, none being the empty correction.
	RememberChoice(ctx context.Context, householdID int64, phrase string, c recipe.Correction, over Mark) error
	// ForgetChoice drops it, one that is not kept too; ErrChanged as RememberChoice.
	ForgetChoice(ctx context.Context, householdID int64, phrase string, over Mark) error

	FindProduct(ctx context.Context, householdID, productID int64) (product.Product, error)
	// SaveProduct saves a label: a new one where its id is 0. ErrTaken where the
	// household has another of that name, ErrChanged where the product that is there
	// is not what over marks.
	SaveProduct(ctx context.Context, householdID int64, p product.Product, over Mark) (product.Product, error)
	// DeleteProduct drops one; lines tied to it fall back on their words.
	DeleteProduct(ctx context.Context, householdID, productID int64) error

	// SaveWishes puts wishes in place of those there are; ErrChanged where they are not
	// what over marks.
	SaveWishes(ctx context.Context, householdID, recipeID int64, w adaptation.Wishes, over Mark) error

	DaybookStore
	LibraryStore
	PhotoStore
}
