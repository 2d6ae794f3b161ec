package pages

import (
	"fmt"
	"math"

	"potwright/internal/adaptation"
)

// curve draws ways to suit everyone by how much they change the dish and how much
// of the limits a serving then uses. Every point but the one shown is a link.
type curve struct {
	Words  string
	Points []curvePoint
	Height float64
	Base   float64 // height of the line that the points stand over
}

// curvePoint is one way.
type curvePoint struct {
	Name, Link   string // Link is "" for the one shown
	Change, Uses string
	X, Y         float64
	Here         bool
}

// LabelY is where the point's number stands.
func (p curvePoint) LabelY() float64 { return p.Y - 14 }

// Measures of the curve, in the drawing's units.
const (
	curveHeight = 200.0
	curveEdge   = 34.0
)

// Places in adaptation.Answer.Cost.
const (
	costChange = 0
	costRoom   = 3
)

// newCurve is empty where there is one way only.
func newCurve(ans adaptation.Answer, link func(adaptation.Alternative) string) curve {
	c := curve{Height: curveHeight, Base: curveHeight - curveEdge}
	if len(ans.Alternatives) == 0 || len(ans.Cost) <= costRoom {
		return c
	}
	costs := [][]int64{ans.Cost}
	c.Points = append(c.Points, curvePoint{Name: "the one above", Here: true})
	for i, alt := range ans.Alternatives {
		if len(alt.Cost) > costRoom {
			costs = append(costs, alt.Cost)
			c.Points = append(c.Points, curvePoint{Name: fmt.Sprintf("another way, %d", i+1), Link: link(alt)})
		}
	}
	x := scaleOf(costs, costChange, curveEdge, chartWidth-curveEdge)
	y := scaleOf(costs, costRoom, curveHeight-2*curveEdge, curveEdge)
	for i := range c.Points {
		p := &c.Points[i]
		p.X, p.Y = x(costs[i][costChange]), y(costs[i][costRoom])
		p.Change = fmt.Sprintf("changes the dish by %d", costs[i][costChange])
		p.Uses = fmt.Sprintf("%.0f %%", float64(costs[i][costRoom])/10)
	}
	c.Words = fmt.Sprintf("%d ways to suit everyone. Further right changes the dish more; higher up uses more of everyone’s limits, added up. The table below says the same.", len(c.Points))
	return c
}

// scaleOf lays the costs of one level between two places; equal ones lie in the
// middle.
func scaleOf(costs [][]int64, level int, from, to float64) func(int64) float64 {
	low, high := costs[0][level], costs[0][level]
	for _, c := range costs {
		low, high = min(low, c[level]), max(high, c[level])
	}
	return func(v int64) float64 {
		if high == low {
			return (from + to) / 2
		}
		return math.Round((from+(to-from)*float64(v-low)/float64(high-low))*10) / 10
	}
}
