package choice

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// outsider is a general solver of mixed-integer programs.
type outsider struct {
	name, program string
	args          func(file string, seconds int) []string
	least, none   *regexp.Regexp // what it prints: the least cost found and proved; that there is none
}

// GLPK 5 and CBC 2.10, as packaged by Debian (glpk-utils, coinor-cbc).
var outsiders = []outsider{
	{"GLPK", "glpsol", func(file string, seconds int) []string {
		return []string{"--lp", file, "--cuts", "--tmlim", strconv.Itoa(seconds), "-o", "/dev/stdout"}
	}, regexp.MustCompile(`(?s)Status:\s+INTEGER OPTIMAL.*?Objective:\s+\S+ = (\S+)`), regexp.MustCompile(`NO (PRIMAL|INTEGER) FEASIBLE|INTEGER EMPTY`)},
	{"CBC", "cbc", func(file string, seconds int) []string {
		return []string{file, "sec", strconv.Itoa(seconds), "solve", "quit"}
	}, regexp.MustCompile(`(?s)Result - Optimal solution found.*?Objective value:\s+(\S+)`), regexp.MustCompile(`roven infeasible|is infeasible`)},
}

// answer is what an outside solver said.
type answer struct {
	cost   int64
	proved bool // otherwise it was stopped
	none   bool // nothing fits
	cpu    time.Duration
}

const outsideSeconds = 10

func (s outsider) solve(t *testing.T, file string) answer {
	cmd := exec.Command(s.program, s.args(file, outsideSeconds)...)
	text, err := cmd.CombinedOutput()
	if !assert.NoError(t, err, "%s: %s", s.name, text) {
		return answer{}
	}
	a := answer{cpu: cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()}
	switch found := s.least.FindSubmatch(text); {
	case found != nil:
		cost, err := strconv.ParseFloat(string(found[1]), 64)
		assert.NoError(t, err)
		a.cost, a.proved = int64(math.Round(cost)), true
	case s.none.Match(text):
		a.proved, a.none = true, true
	}
	return a
}

// askAll asks every outside solver at once, in their order.
func askAll(t *testing.T, file string) []answer {
	answers := make([]answer, len(outsiders))
	var asked sync.WaitGroup
	for k, s := range outsiders {
		asked.Go(func() { answers[k] = s.solve(t, file) })
	}
	asked.Wait()
	return answers
}

// outsideVariable asks for all problems, by "all"; without it every seventh is taken,
// with problems of each kind and size among them.
const outsideVariable = "POTWRIGHT_SOLVERS"

// TestTheLeastCostEqualsThatOfOutsideSolvers holds problems of 10 to 40 lines, of 300 in
// all, with linear limits against two general solvers, figures rounded to whole
// numbers so that the tolerances of those decide nothing. The CPU times of all
// three come from the same run. It is skipped where a solver is not at hand; CI must
// have both.
func TestTheLeastCostEqualsThatOfOutsideSolvers(t *testing.T) {
	if testing.Short() {
		t.Skip("no outside solvers in a short run")
	}
	for _, s := range outsiders {
		if _, err := exec.LookPath(s.program); err != nil {
			if os.Getenv("CI") == "true" {
				t.Fatalf("%s is not here, and CI must have it: apt-get install glpk-utils coinor-cbc", s.name)
			}
			t.Skipf("%s is not here: apt-get install glpk-utils coinor-cbc to run this", s.name)
		}
	}
	dir := t.TempDir()
	var ratios []float64
	agreed, stopped, step := 0, 0, 7
	if os.Getenv(outsideVariable) == "all" {
		step = 1
	}
	for i := 0; i < 300; i += step {
		p, lines := outsideProblem(i)
		file := filepath.Join(dir, fmt.Sprintf("%03d.lp", i))
		require.NoError(t, writeProgram(file, p))
		before := cpuTime()
		sol, err := Solve(p, 0)
		took := cpuTime() - before
		require.NoError(t, err)
		best := time.Duration(math.MaxInt64)
		for k, a := range askAll(t, file) {
			s := outsiders[k]
			best = min(best, a.cpu)
			if !a.proved {
				stopped++
				continue
			}
			agreed++
			assert.Equal(t, a.none, sol.Status == Infeasible, "%s, problem %d", s.name, i)
			if !a.none && sol.Chosen != nil {
				assert.Equal(t, a.cost, sol.Cost[0], "%s, problem %d", s.name, i)
			}
		}
		if lines == 40 {
			ratios = append(ratios, best.Seconds()/max(took, 20*time.Microsecond).Seconds())
		}
	}
	slices.Sort(ratios)
	t.Logf("%d answers agree, %d were stopped after %d s; at 40 lines the faster of the two takes %.0f times as long in the median (%.0f to %.0f)",
		agreed, stopped, outsideSeconds, ratios[len(ratios)/2], ratios[0], ratios[len(ratios)-1])
	assert.GreaterOrEqual(t, agreed, 29*stopped, "those stopped prove nothing")
}

// outsideProblem is one of the problems, with its number of lines.
func outsideProblem(i int) (Problem, int) {
	lines, options := 10+i%11, 4+i%4
	switch {
	case i%30 == 0:
		lines, options = 40, 6
	case i%10 == 3:
		lines, options = 30, 4
	}
	f := families[(i/2)%3]
	if lines == 40 {
		f = families[1+i/30%2]
	}
	if lines <= 12 && i%3 == 0 {
		f = families[3]
	}
	f.impossible = i%17 == 16
	return whole(f.sized(lines, options).make(uint64(i))), lines
}

// whole rounds the figures of a linear problem to whole thousandths.
func whole(p Problem) Problem {
	for r := range p.Rows {
		row := &p.Rows[r]
		for g := range row.Mid {
			for o, v := range row.Mid[g] {
				row.Mid[g][o] = math.Round(1000 * v)
			}
		}
		row.Bound = math.Ceil(1000*row.Bound) + float64(len(p.Groups))
	}
	return p
}

// writeProgram writes a linear problem in the LP format, one term a line.
func writeProgram(file string, p Problem) error {
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	defer f.Close()
	w := bufio.NewWriter(f)
	fmt.Fprintln(w, "Minimize\n cost:")
	for g, group := range p.Groups {
		for o, option := range group.Options {
			fmt.Fprintf(w, " %+d x%d_%d\n", option.Cost[0], g, o)
		}
	}
	fmt.Fprintln(w, "Subject To")
	for g, group := range p.Groups {
		fmt.Fprintf(w, " one%d:\n", g)
		for o := range group.Options {
			fmt.Fprintf(w, " + x%d_%d\n", g, o)
		}
		fmt.Fprintln(w, " = 1")
	}
	for r, row := range p.Rows {
		fmt.Fprintf(w, " row%d:\n", r)
		for g := range row.Mid {
			for o, v := range row.Mid[g] {
				fmt.Fprintf(w, " %+.0f x%d_%d\n", v, g, o)
			}
		}
		fmt.Fprintf(w, " <= %.0f\n", row.Bound)
	}
	fmt.Fprintln(w, "Binary")
	for g, group := range p.Groups {
		for o := range group.Options {
			fmt.Fprintf(w, " x%d_%d\n", g, o)
		}
	}
	fmt.Fprintln(w, "End")
	return w.Flush()
}

func TestTheProgramFileNamesEveryRow(t *testing.T) {
	file := filepath.Join(t.TempDir(), "p.lp")
	p, _ := outsideProblem(1)
	require.NoError(t, writeProgram(file, p))
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, len(p.Rows), strings.Count(string(text), "<="))
}
