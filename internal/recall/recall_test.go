package recall_test

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"potwright/internal/recall"
)

func TestAnAnswerIsWorkedOutOnce(t *testing.T) {
	var m recall.Memory[string, int]
	asked := 0
	for range 3 {
		assert.Equal(t, 7, m.Of("seven", func() int { asked++; return 7 }))
	}
	assert.Equal(t, 1, asked)
}

func TestAFullMemoryForgetsWhatWasNotAskedForAndStillAnswers(t *testing.T) {
	m := recall.Memory[int, int]{Limit: 100}
	asked := 0
	square := func(i int) int { return m.Of(i, func() int { asked++; return i * i }) }
	for i := range 1000 {
		assert.Equal(t, i*i, square(i))
		assert.Equal(t, 0, square(0), "asked for all the time")
	}
	assert.Equal(t, 1000, asked, "each once")
	square(999)
	assert.Equal(t, 1000, asked)
	square(500)
	assert.Equal(t, 1001, asked, "forgotten")
}

// TestWhatIsHeldNeverWeighsMoreThanTheLimit holds a memory against a plain map that
// forgets nothing: whatever is found is right, and what is found at once is bounded.
func TestWhatIsHeldNeverWeighsMoreThanTheLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := recall.Memory[int, string]{Limit: 40, Weigh: func(s string) int { return len(s) }}
		put := map[int]string{}
		for _, key := range rapid.SliceOfN(rapid.IntRange(0, 9), 1, 60).Draw(t, "keys") {
			put[key] = rapid.StringMatching("[a-z]{0,30}").Draw(t, "answer")
			m.Put(key, put[key])
			found, ok := m.Find(key)
			assert.Equal(t, len(put[key]) <= 20, ok, "one over half the limit is not held")
			assert.True(t, !ok || found == put[key])
		}
		weight := 0
		for key, latest := range put {
			if s, ok := m.Find(key); ok {
				assert.Equal(t, latest, s)
				weight += len(s)
			}
		}
		assert.LessOrEqual(t, weight, 40+20, "finding may move one half on while we count")
	})
}

func TestManyMayAskAtOnce(t *testing.T) {
	var m recall.Memory[int, int]
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			for i := range 1000 {
				assert.Equal(t, i+1, m.Of(i, func() int { return i + 1 }))
			}
		})
	}
	all.Wait()
}
