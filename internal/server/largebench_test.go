package server_test

import (
	"fmt"
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
)

// BenchmarkLargeHousehold is the time of each page in a household of 1,000 recipes
// and 5,000 versions: warm, the same page again and again, and cold, every time that
// of another recipe; one request after the other and 50 at once, each sent when the
// one before was answered. It reports the middle and the 99th of a hundred, and the
// processor time of a request, which other programs do not lengthen.
func BenchmarkLargeHousehold(b *testing.B) {
	_, handler := newLargeHouse(b, 1000)
	walk := largeWalk()
	for _, p := range walk {
		name := strings.ReplaceAll(strings.Trim(p.name, "/"), "/", "_")
		for _, atOnce := range []int{1, 50} {
			if p.name != "new" {
				b.Run(fmt.Sprintf("%s/warm/%d at once", name, atOnce), func(b *testing.B) { ask(b, handler, atOnce, func(int) string { return p.of(0) }) })
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

// ask sends b.N requests, so many of them at once, and reports how long they took.
func ask(b *testing.B, handler http.Handler, atOnce int, path func(i int) string) {
	b.Helper()
	took := make([]time.Duration, b.N)
	var next atomic.Int64
	var asking sync.WaitGroup
	begun := processorTime()
	for range atOnce {
		asking.Go(func() {
			for i := int(next.Add(1)) - 1; i < b.N; i = int(next.Add(1)) - 1 {
				r := httptest.NewRequest(http.MethodGet, "http://localhost"+path(i), nil)
				w := httptest.NewRecorder()
				start := time.Now()
				handler.ServeHTTP(w, r)
				took[i] = time.Since(start)
				if w.Code != http.StatusOK {
					b.Errorf("%s: %d", r.URL, w.Code)
				}
			}
		})
	}
	asking.Wait()
	used := processorTime() - begun
	slices.Sort(took)
	b.ReportMetric(inMilliseconds(took[b.N/2]), "median-ms")
	b.ReportMetric(inMilliseconds(took[b.N*99/100]), "p99-ms")
	b.ReportMetric(inMilliseconds(used)/float64(b.N), "cpu-ms/op")
	b.ReportMetric(0, "ns/op")
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
