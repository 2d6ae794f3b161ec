package recall_test

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"

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

func TestAFullMemoryStartsAnewAndStillAnswers(t *testing.T) {
	var m recall.Memory[int, int]
	asked := 0
	square := func(i int) int { return m.Of(i, func() int { asked++; return i * i }) }
	for i := range recall.Most + 1 {
		assert.Equal(t, i*i, square(i))
	}
	square(0)
	assert.Equal(t, recall.Most+2, asked, "the first was forgotten")
	square(0)
	assert.Equal(t, recall.Most+2, asked)
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
