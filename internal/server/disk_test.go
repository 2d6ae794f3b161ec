package server_test

import (
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/server"
	"potwright/internal/store/sqlite"
)

func TestAPortThatIsTakenIsTold(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer taken.Close()
	_, err = server.Listen(t.Context(), taken.Addr().String(), false)
	assert.ErrorContains(t, err, "another program listens there already, perhaps Potwright itself: end it, or give another address")
}

// smallDisk is a disk of its own of one megabyte, where this computer lets a test
// have one.
func smallDisk(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if os.Geteuid() != 0 || exec.Command("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", dir).Run() != nil {
		t.Skip("no disk of its own can be had here: mounting one takes the superuser")
	}
	t.Cleanup(func() { _ = exec.Command("umount", "-l", dir).Run() })
	return dir
}

func TestAFullDiskIsToldOnThePageAndLosesNothing(t *testing.T) {
	disk := smallDisk(t)
	path := filepath.Join(disk, "potwright.db")
	store, err := sqlite.Open(path, time.Now)
	require.NoError(t, err)
	defer store.Close()
	h := houseOver(t, store, time.Now)
	_, dish := h.furnish()
	ballast := filepath.Join(disk, "ballast")
	_ = os.WriteFile(ballast, make([]byte, 2<<20), 0o600) // until the disk is full
	long := strings.Replace(potText, "Method\n", "Method\n"+strings.Repeat(strings.Repeat("Stir the pot once more and wait for it to settle. ", 7)+"\n", 150), 1)

	r := h.post(dish+"/edit", "text", long)
	assert.Equal(t, http.StatusInsufficientStorage, r.StatusCode)
	assert.Contains(t, r.body, "There is no room to save")
	assert.Contains(t, r.body, "go back, where what you typed still stands")
	assert.Equal(t, http.StatusOK, h.get(dish).StatusCode, "what was saved before is there")

	require.NoError(t, os.Remove(ballast))
	h.must(dish+"/edit", "text", long)
	_, err = sqlite.Verify(t.Context(), path)
	assert.NoError(t, err)
}
