package sqlite

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	osexec "os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/recipe"
)

// killsVariable is how often the writer is killed; 300 takes about a minute.
const killsVariable = "POTWRIGHT_KILLS"

// writerVariable makes the test binary the writer of the file it names.
const writerVariable = "POTWRIGHT_KILLED_WRITER"

const usualKills = 20

// TestKillWriter is the process that is killed: it saves versions for ever and
// tells each id once the store has given it.
func TestKillWriter(t *testing.T) {
	path := os.Getenv(writerVariable)
	if path == "" {
		t.Skip("started by TestEverySaveThatWasAcknowledgedOutlivesAKill")
	}
	s, err := Open(path, time.Now)
	require.NoError(t, err)
	first, err := s.FindVersion(t.Context(), 1, 1)
	require.NoError(t, err)
	for i := 0; ; i++ {
		v := recipe.Version{RecipeID: first.RecipeID, ParentID: first.ID, Note: strconv.Itoa(os.Getpid()), Text: first.Text}
		if v, err = s.AddVersion(t.Context(), 1, fmt.Sprintf("Soup %d", i), v); err != nil {
			t.Fatal(err)
		}
		fmt.Println("saved", v.ID)
	}
}

// The writer is killed at random moments (SIGKILL: no handler, no deferred call),
// while it opens the file, writes the log or folds it in, every other time after its
// first save. The seed is printed.
func TestEverySaveThatWasAcknowledgedOutlivesAKill(t *testing.T) {
	kills := usualKills
	if n, err := strconv.Atoi(os.Getenv(killsVariable)); err == nil {
		kills = n
	}
	s, path, _ := stocked(t)
	require.NoError(t, s.Close())
	seed := uint64(time.Now().UnixNano())
	t.Logf("%d kills, seed %d", kills, seed)
	random := rand.New(rand.NewPCG(seed, 0))

	acknowledged := 0
	for i := range kills {
		told := writeUntilKilled(t, path, time.Duration(random.IntN(250))*time.Millisecond, i%2 == 1)
		acknowledged += len(told)
		_, err := Verify(t.Context(), path)
		require.NoError(t, err)
		s, err := Open(path, fixedNow)
		require.NoError(t, err)
		for _, id := range told {
			_, err := s.FindVersion(t.Context(), 1, id)
			assert.NoError(t, err, "version %d was acknowledged", id)
		}
		require.NoError(t, s.Close())
	}
	s = mustOpen(t, path)
	all, err := s.ListVersions(t.Context(), 1, 1)
	require.NoError(t, err)
	assert.Greater(t, len(all), acknowledged, "nothing that was there before is lost")
	assert.Positive(t, acknowledged)
	t.Logf("%d saves acknowledged, %d found", acknowledged, len(all)-1)
}

// writeUntilKilled starts the writer, kills it after a while, counted from its start or
// from its first save, and gives the ids it told. A start on a slow machine may take
// longer than the while.
func writeUntilKilled(t *testing.T, path string, after time.Duration, fromSave bool) (told []int64) {
	t.Helper()
	writer := osexec.CommandContext(t.Context(), os.Args[0], "-test.run=^TestKillWriter$", "-test.v=false")
	writer.Env = append(os.Environ(), writerVariable+"="+filepath.ToSlash(path))
	out, err := writer.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, writer.Start())
	kill := func() { _ = writer.Process.Kill() }
	if !fromSave {
		defer time.AfterFunc(after, kill).Stop()
	}
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		var id int64
		if n, _ := fmt.Sscanf(lines.Text(), "saved %d", &id); n == 1 {
			if told = append(told, id); fromSave && len(told) == 1 {
				defer time.AfterFunc(after, kill).Stop()
			}
		}
	}
	_ = writer.Wait() // it was killed
	return told
}
