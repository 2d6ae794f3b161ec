package server_test

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/store/sqlite"
)

// BenchmarkLargeHousehold is the time of each page in a household of 1,000 recipes
// and 5,000 versions: warm, the same page again and again; saved, the same while another
// program saves something of another recipe ten times a second; and cold, every time
// that of another recipe; one request after the other and 50 at once, each sent when
// the one before was answered. It reports the middle and the 99th of a hundred, and the
// processor time of a request and of whoever asks, which other programs do not lengthen.
func BenchmarkLargeHousehold(b *testing.B) {
	h, handler := newLargeHouse(b, 1000)
	walk := largeWalk()
	for _, p := range walk {
		name := strings.ReplaceAll(strings.Trim(p.name, "/"), "/", "_")
		for _, atOnce := range []int{1, 50} {
			same := func(int) string { return p.of(0) }
			if p.name != "new" {
				b.Run(fmt.Sprintf("%s/warm/%d at once", name, atOnce), func(b *testing.B) { ask(b, handler, atOnce, same) })
				b.Run(fmt.Sprintf("%s/saved/%d at once", name, atOnce), func(b *testing.B) {
					stop := saveElsewhere(b, h)
					ask(b, handler, atOnce, same)
					stop()
				})
			}
			from := 500 / atOnce // other recipes the second time
			b.Run(fmt.Sprintf("%s/cold/%d at once", name, atOnce), func(b *testing.B) { ask(b, handler, atOnce, func(i int) string { return p.of(from + i) }) })
		}
	}
	for _, atOnce := range []int{1, 50} {
		b.Run(fmt.Sprintf("walk/%d at once", atOnce), func(b *testing.B) {
			ask(b, handler, atOnce, func(i int) string { return walk[i%len(walk)].of(i / len(walk) % 40) })
		})
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	b.Logf("taken from the system after all of it: %d MB", m.Sys>>20)
}

// ask sends b.N requests over so many connections, one after the other on each, and
// reports how long the server took for them: from when it has a request until it has
// written the answer.
func ask(b *testing.B, handler http.Handler, atOnce int, path func(i int) string) {
	b.Helper()
	var mu sync.Mutex
	took := make([]time.Duration, 0, b.N)
	ts := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		start := time.Now()
		handler.ServeHTTP(w, r)
		d := time.Since(start)
		mu.Lock()
		defer mu.Unlock()
		took = append(took, d)
	}))
	client := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: atOnce, DisableCompression: true}}
	var next atomic.Int64
	var asking sync.WaitGroup
	begun := processorTime()
	for range atOnce {
		asking.Go(func() {
			for i := int(next.Add(1)) - 1; i < b.N; i = int(next.Add(1)) - 1 {
				resp, err := client.Get(ts.URL + path(i))
				if err != nil {
					b.Error(err)
					return
				}
				if _, err := io.Copy(io.Discard, resp.Body); err != nil || resp.StatusCode != http.StatusOK {
					b.Errorf("%s: %s, %v", path(i), resp.Status, err)
				}
				_ = resp.Body.Close()
			}
		})
	}
	asking.Wait()
	ts.Close()
	used := processorTime() - begun
	slices.Sort(took)
	b.ReportMetric(inMilliseconds(took[b.N/2]), "median-ms")
	b.ReportMetric(inMilliseconds(took[b.N*99/100]), "p99-ms")
	b.ReportMetric(inMilliseconds(used)/float64(b.N), "cpu-ms/op")
	b.ReportMetric(0, "ns/op")
}

// saveElsewhere has another program save the tags of the last recipe ten times a second
// until stop is called.
func saveElsewhere(b *testing.B, h *house) (stop func()) {
	b.Helper()
	other, err := sqlite.Open(h.file, time.Now)
	require.NoError(b, err)
	ctx, cancel := context.WithCancel(b.Context())
	var saving sync.WaitGroup
	saving.Go(func() {
		for n := 0; ctx.Err() == nil; n++ {
			assert.NoError(b, other.SetTags(b.Context(), 1, 1000, []string{fmt.Sprint("shelf ", n)}, ""))
			select {
			case <-time.After(100 * time.Millisecond):
			case <-ctx.Done():
			}
		}
	})
	return func() {
		cancel()
		saving.Wait()
		require.NoError(b, other.SetTags(b.Context(), 1, 1000, nil, ""))
		require.NoError(b, other.Close())
	}
}

func inMilliseconds(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }

// processorTime is what this process took of the processors so far.
func processorTime() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// walked is a sort of page, with its address for the i-th recipe.
type walked struct {
	name string
	of   func(i int) string
}

// largeWalk is every sort of page that is looked at while cooking for a household.
func largeWalk() []walked {
	recipe := func(i int) int { return 6 + i%1000 }
	ofRecipe := func(name, rest string) walked {
		return walked{name, func(i int) string { return fmt.Sprintf("/h/1/recipes/%d%s", recipe(i), rest) }}
	}
	words := []string{"chowder", "bean", "pasta", "greens", "muffin", "cream", "honey", "sausage", "butter", "corn"}
	return []walked{
		{"list", func(i int) string { return fmt.Sprintf("/h/1/recipes?from=%d", 20*i%1000) }},
		{"search", func(i int) string { return fmt.Sprintf("/h/1/recipes?q=%s+%d", words[i%len(words)], i/len(words)%1000) }},
		ofRecipe("recipe", ""),
		ofRecipe("versions", "/versions"),
		{"compare", func(i int) string {
			first := 6 + 5*(i%1000)
			return fmt.Sprintf("/h/1/recipes/%d/compare?a=%d&b=%d", recipe(i), first, first+4)
		}},
		ofRecipe("adapt", "/adapt"),
		ofRecipe("card", "/card"),
		ofRecipe("cook", "/cook"),
		{"table", func(i int) string { return fmt.Sprintf("/h/1/table?dish=%d", recipe(i)) }},
		{"people", func(int) string { return "/h/1/people" }},
		{"day", func(int) string { return "/h/1/day" }},
		{"new", func(int) string { return "/h/1/recipes/new" }},
	}
}
