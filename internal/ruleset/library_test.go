package ruleset_test

import (
	"syscall"
	"testing"
	"time"

	"potwright/internal/fooddata"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/ruleset"
	"potwright/rules"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func stock(t testing.TB) ruleset.Stock {
	t.Helper()
	table, err := fooddata.Load()
	require.NoError(t, err)
	retentions, err := fooddata.LoadRetentions()
	require.NoError(t, err)
	return ruleset.Stock{Foods: table.Foods(), Retentions: retentions, Read: func(text string) foodmatch.Matched {
		return foodmatch.Weigh(ingredient.Read(text), table, nil, nil)
	}}
}

func TestTheBuiltInRulesHaveNoFaultAndEveryExampleHolds(t *testing.T) {
	assert.Empty(t, ruleset.Check(ruleset.Folder{FS: rules.FS}, stock(t)))
}

// All built-in rules read and checked: 100 ms of processor time is the bound.
func BenchmarkLibraryLoaded(b *testing.B) {
	s := stock(b)
	before := processorTime(b)
	for b.Loop() {
		if _, err := ruleset.Library(ruleset.Folder{FS: rules.FS}, nil, s); err != nil {
			b.Fatal(err)
		}
	}
	reportProcessor(b, before)
}

// Every rule and every example tried: the same bound.
func BenchmarkLibraryChecked(b *testing.B) {
	s := stock(b)
	before := processorTime(b)
	for b.Loop() {
		ruleset.Check(ruleset.Folder{FS: rules.FS}, s)
	}
	reportProcessor(b, before)
}

// processorTime is what this program has taken, all threads together: on a shared
// machine it says more than the clock.
func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var u syscall.Rusage
	require.NoError(b, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

func reportProcessor(b *testing.B, before time.Duration) {
	b.Helper()
	b.ReportMetric(float64((processorTime(b)-before).Microseconds())/1000/float64(b.N), "cpu-ms/op")
}
