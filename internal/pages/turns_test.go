package pages

import (
	"context"
	"testing"
	"testing/synctest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTurnsAreTakenInTheOrderTheyWereAskedFor(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		one := make(turns, 1)
		end, err := one.take(t.Context())
		require.NoError(t, err)
		var order []int
		for i := range 3 {
			go func() {
				end, err := one.take(context.Background())
				assert.NoError(t, err)
				order = append(order, i) // it is this one's turn alone
				end()
				end() // a second time changes nothing
			}()
			synctest.Wait() // until it waits
		}
		end()
		synctest.Wait()
		assert.Equal(t, []int{0, 1, 2}, order)
		end, err = one.take(t.Context())
		require.NoError(t, err)
		gone, leave := context.WithCancel(t.Context())
		leave()
		_, err = one.take(gone)
		require.ErrorIs(t, err, context.Canceled)
		end()
	})
}
