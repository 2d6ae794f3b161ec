package pages

import (
	"fmt"
	"math"

	"potwright/internal/adaptation"
)

// curve draws how far a figure can be brought against how much that changes the
// dish. Every point is a link to the dish as a whole, and stands in a table too.
type curve struct {
	Title, Words, Figure string
	Points               []curvePoint
	// Path joins the points in steps: between two of them nothing better is to be
	// had for the change.
	Path         string
	Height, Base float64
	Bound        float64 // height of the limit, 0 where it is outside
	// Part is set where its budget ran out before the end of the curve.
	Part bool
}

// curvePoint is one dish.
type curvePoint struct {
	Number               int
	Link, Change, Amount string
	// Swaps are those of the first point, then what is other than at the last.
	Swaps, Portions []string
	X, Y            float64
	// Pressed is set for the points that are links in the drawing: so many as have
	// room for a finger. The table links them all.
	Pressed bool
}

// PressX is the left edge of what may be pressed.
func (p curvePoint) PressX() float64 { return p.X - pressWidth/2 }

// LabelY is where the point's number stands.
func (p curvePoint) LabelY() float64 { return p.Y - 12 }

// Measures of the curve, in the drawing's units.
const (
	curveHeight = 220.0
	curveEdge   = 34.0
	// pressWidth is a finger's width (44 px, WCAG 2.2, 2.5.5) at the narrowest phone.
	pressWidth = 48.0
)

// newCurve lays out points that are in order of change.
func newCurve(points []adaptation.Point, unit string, bound *float64) curve {
	c := curve{Height: curveHeight, Base: curveHeight - curveEdge}
	if len(points) == 0 {
		return c
	}
	low, high := points[0].Amount, points[0].Amount
	for _, p := range points {
		low, high = math.Min(low, p.Amount), math.Max(high, p.Amount)
	}
	if bound != nil {
		low, high = math.Min(low, *bound), math.Max(high, *bound)
	}
	x := scaleOf(float64(points[0].Change), float64(points[len(points)-1].Change), curveEdge, chartWidth-curveEdge)
	y := scaleOf(low, high, c.Base-curveEdge/2, curveEdge)
	for i, p := range points {
		v := curvePoint{Number: i + 1, Change: fmt.Sprint(p.Change), Amount: withUnit(figure(p.Amount), unit), X: x(float64(p.Change)), Y: y(p.Amount)}
		if v.Swaps = differing(nil, p.Changes); i > 0 {
			v.Swaps = differing(points[i-1].Changes, p.Changes)
		}
		if i == 0 {
			c.Path = fmt.Sprintf("M%g %g", v.X, v.Y)
		} else {
			c.Path += fmt.Sprintf("H%gV%g", v.X, v.Y)
		}
		c.Points = append(c.Points, v)
	}
	if bound != nil {
		c.Bound = y(*bound)
	}
	c.press()
	first, last := c.Points[0], c.Points[len(c.Points)-1]
	c.Words = fmt.Sprintf("From %s, which changes the dish by %s, to %s, which changes it by %s. The table below says the same.", first.Amount, first.Change, last.Amount, last.Change)
	if len(c.Points) == 1 {
		c.Words = fmt.Sprintf("%s, which changes the dish by %s, is all there is: no other swap brings it further.", first.Amount, first.Change)
	}
	return c
}

// press spreads the links of the drawing: the first and last point, and between
// them those that have room.
func (c *curve) press() {
	last := len(c.Points) - 1
	at := math.Inf(-1)
	for i := range c.Points {
		room := c.Points[i].X-at >= pressWidth && (i == last || c.Points[last].X-c.Points[i].X >= pressWidth || i == 0)
		if c.Points[i].Pressed = room; room {
			at = c.Points[i].X
		}
	}
}

// scaleOf lays what lies between low and high between two places; where both are
// equal it lies in the middle.
func scaleOf(low, high, from, to float64) func(float64) float64 {
	return func(v float64) float64 {
		if high <= low {
			return (from + to) / 2
		}
		return math.Round((from+(to-from)*(v-low)/(high-low))*10) / 10
	}
}
