package pages

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTurnsAreTakenInTheOrderTheyWereAskedFor(t *testing.T) {
	one := make(turns, 1)
	end, err := one.take(t.Context())
	require.NoError(t, err)
	order := make(chan int, 3)
	for i := range 3 {
		go func() {
			end, err := one.take(context.Background())
			assert.NoError(t, err)
			order <- i
			end()
			end() // a second time changes nothing
		}()
		time.Sleep(20 * time.Millisecond) // until it waits
	}
	end()
	for i := range 3 {
		assert.Equal(t, i, <-order)
	}
	end, err = one.take(t.Context())
	require.NoError(t, err)
	gone, leave := context.WithCancel(t.Context())
	leave()
	_, err = one.take(gone)
	require.ErrorIs(t, err, context.Canceled)
	end()
}
