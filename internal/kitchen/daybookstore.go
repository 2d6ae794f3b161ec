package kitchen

import (
	"context"

	"potwright/internal/daybook"
)

// DaybookStore keeps what members eat and plan to eat, what is in the freezer, and
// how dishes turned out. What is kept is found by household as well as by id.
type DaybookStore interface {
	// ListEntries gives what is written down for the days from one to another, both
	// included, by day and in the order it was written.
	ListEntries(ctx context.Context, householdID int64, from, to daybook.Date) ([]daybook.Entry, error)
	FindEntry(ctx context.Context, householdID, entryID int64) (daybook.Entry, error)
	// AddEntries writes new entries down, all or none; ids given are ignored. ErrNotFound
	// where the household has no such member or version.
	AddEntries(ctx context.Context, householdID int64, entries []daybook.Entry) ([]daybook.Entry, error)
	// ChangeEntry puts an entry in place of the one with its id. ErrNotFound where the
	// household has no such entry, member or version, ErrChanged where the entry that is
	// there is not what over marks.
	ChangeEntry(ctx context.Context, householdID int64, e daybook.Entry, over Mark) error
	// DeleteEntry drops one; ErrChanged where it is not what over marks.
	DeleteEntry(ctx context.Context, householdID, entryID int64, over Mark) error

	// ListContainers gives the containers still in the freezer, the first put in first.
	ListContainers(ctx context.Context, householdID int64) ([]daybook.Container, error)
	FindContainer(ctx context.Context, householdID, containerID int64) (daybook.Container, error)
	// PutIn writes new containers down, all or none.
	PutIn(ctx context.Context, householdID int64, cs []daybook.Container) ([]daybook.Container, error)
	// TakeOut notes the day a container left the freezer, and writes down who ate it, in
	// one go. ErrNotFound where it is not there, or no longer.
	TakeOut(ctx context.Context, householdID, containerID int64, day daybook.Date, eaten []daybook.Entry) error

	// ListMade gives the times that a recipe's versions were made, the latest first.
	ListMade(ctx context.Context, householdID, recipeID int64) ([]daybook.Made, error)
	SaveMade(ctx context.Context, householdID int64, m daybook.Made) (daybook.Made, error)
	DeleteMade(ctx context.Context, householdID, madeID int64) error
}
