package postgres_test

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/household"
	"potwright/internal/recipe"
	"potwright/internal/store/postgres"
	"potwright/internal/testkit"
)

// writerVariable makes the test binary the writer to the database it names.
const writerVariable = "POTWRIGHT_KILLED_WRITER"

const kills = 5

// TestKillWriter is the program that is killed: it saves versions for ever and tells
// each id once the store has given it.
func TestKillWriter(t *testing.T) {
	at := os.Getenv(writerVariable)
	if at == "" {
		t.Skip("started by TestAWriterThatIsKilledLeavesNothingHalfAndNoLock")
	}
	s, err := postgres.Open(at, time.Now)
	require.NoError(t, err)
	first, err := s.FindVersion(t.Context(), 1, 1)
	require.NoError(t, err)
	for i := 0; ; i++ {
		v, err := s.AddVersion(t.Context(), 1, fmt.Sprintf("Soup %d", i), recipe.Version{RecipeID: first.RecipeID, ParentID: first.ID})
		if err != nil {
			t.Fatal(err)
		}
		fmt.Println("saved", v.ID)
	}
}

// A writer is killed (SIGKILL) a random while after its first save: what it told is
// there, the versions are numbered without a gap, and the next writer need not wait
// for what the dead one held.
func TestAWriterThatIsKilledLeavesNothingHalfAndNoLock(t *testing.T) {
	at := testkit.Postgres(t)
	s := mustOpen(t, with(t, at, "lock_timeout", "5s"))
	h, err := s.CreateHousehold(t.Context(), household.Household{Name: "Quay Lane"})
	require.NoError(t, err)
	first, err := s.CreateRecipe(t.Context(), h.ID, "Soup", recipe.Version{Text: "Soup"})
	require.NoError(t, err)
	for range kills {
		for _, id := range writeUntilKilled(t, at, time.Duration(rand.IntN(50))*time.Millisecond) {
			_, err := s.FindVersion(t.Context(), h.ID, id)
			assert.NoError(t, err, "version %d was acknowledged", id)
		}
		_, err := s.AddVersion(t.Context(), h.ID, "", recipe.Version{RecipeID: first.RecipeID, ParentID: first.ID})
		require.NoError(t, err)
	}
	vs, err := s.ListVersions(t.Context(), h.ID, first.RecipeID)
	require.NoError(t, err)
	require.Greater(t, len(vs), 2*kills)
	for i, v := range vs {
		assert.Equal(t, i+1, v.Number)
	}
}

// writeUntilKilled starts the writer, kills it a while after its first save and gives
// the ids it told.
func writeUntilKilled(t *testing.T, at string, after time.Duration) (told []int64) {
	t.Helper()
	writer := exec.CommandContext(t.Context(), os.Args[0], "-test.run=^TestKillWriter$", "-test.v=false")
	writer.Env = append(os.Environ(), writerVariable+"="+at)
	out, err := writer.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, writer.Start())
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		var id int64
		if n, _ := fmt.Sscanf(lines.Text(), "saved %d", &id); n == 1 {
			if told = append(told, id); len(told) == 1 {
				defer time.AfterFunc(after, func() { _ = writer.Process.Kill() }).Stop()
			}
		}
	}
	_ = writer.Wait() // it was killed
	return told
}
