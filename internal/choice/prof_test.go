package choice

import (
	"os"
	"strconv"
	"strings"
	"testing"
)

func TestProf(t *testing.T) {
	if os.Getenv("PROF") == "" {
		t.Skip()
	}
	size, _ := strconv.Atoi(os.Getenv("SIZE"))
	for _, f := range families {
		f.cone = strings.Contains(os.Getenv("PROF"), "cone")
		f.fine = strings.Contains(os.Getenv("PROF"), "fine")
		if !strings.Contains(os.Getenv("PROF"), f.name) {
			continue
		}
		f = f.sized(size, 8)
		times(f.String(), f.make)
	}
}
