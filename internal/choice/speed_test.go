package choice

import (
	"fmt"
	"os"
	"slices"
	"syscall"
	"testing"
	"time"
)

func TestTimesOfFamilies(t *testing.T) {
	if os.Getenv("CHOICE_TIMES") == "" {
		t.Skip("set CHOICE_TIMES=1 to measure")
	}
	for _, size := range []int{20, 40} {
		for _, f := range families {
			for _, cone := range []bool{false, true} {
				for _, fine := range []bool{false, true} {
					f.cone, f.fine = cone, fine
					f := f.sized(size, 8)
					times(f.String(), f.make)
				}
			}
		}
	}
	times("portions", func(s uint64) Problem { return portions(s, false) })
	times("portions 3 levels", func(s uint64) Problem { return portions(s, true) })
}

func times(name string, build func(seed uint64) Problem) {
	var took []time.Duration
	var nodes []int
	stopped := 0
	for seed := range uint64(6) {
		p := build(seed)
		begin := cpu()
		sol, err := Solve(p, Budget{Time: 3 * time.Second}, time.Now)
		took = append(took, cpu()-begin)
		nodes = append(nodes, sol.Nodes)
		if err != nil || sol.Status == Stopped {
			stopped++
		}
	}
	slices.Sort(took)
	slices.Sort(nodes)
	fmt.Printf("%-28s median %8.2f ms  max %8.2f ms  nodes %6d / %6d  stopped %d\n", name,
		took[len(took)/2].Seconds()*1e3, took[len(took)-1].Seconds()*1e3, nodes[len(nodes)/2], nodes[len(nodes)-1], stopped)
}

func cpu() time.Duration {
	var u syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &u)
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
