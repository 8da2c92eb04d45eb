package draw

import (
	"math"
	"testing"
)

// On a plane, which straight lines follow exactly, every point of a line has the
// level; on a cone the lines are rings that keep to the circle as well as chords do,
// and close. (Geometry.)
func TestContourLines(t *testing.T) {
	var xs, ys []float64
	for i := range 21 {
		xs, ys = append(xs, float64(i-10)/5), append(ys, float64(i-10)/4)
	}
	plane := func(i, j int) float64 { return xs[i] + 2*ys[j] }
	for _, level := range []float64{-3.3, 0.07, 2.5} {
		lines := ContourLines(xs, ys, plane, level)
		if len(lines) != 1 || len(lines[0]) < 10 {
			t.Fatalf("level %g: %d lines", level, len(lines))
		}
		for k, p := range lines[0] {
			if math.Abs(p[0]+2*p[1]-level) > 1e-5 {
				t.Errorf("level %g: %v is at %g", level, p, p[0]+2*p[1])
			}
			if k > 0 && math.Hypot(p[0]-lines[0][k-1][0], p[1]-lines[0][k-1][1]) > 0.33 {
				t.Errorf("level %g: a jump to %v", level, p)
			}
		}
	}
	cone := func(i, j int) float64 { return math.Hypot(xs[i], ys[j]) }
	ring := ContourLines(xs, ys, cone, 1.5)
	if len(ring) != 1 || ring[0][0] != ring[0][len(ring[0])-1] {
		t.Fatalf("%d rings", len(ring))
	}
	around := 0.0
	for k, p := range ring[0] {
		if r := math.Hypot(p[0], p[1]); math.Abs(r-1.5) > 0.02 {
			t.Errorf("%v is %g from the middle", p, r)
		}
		if k > 0 {
			q := ring[0][k-1]
			around += math.Hypot(p[0]-q[0], p[1]-q[1])
		}
	}
	if math.Abs(around-2*math.Pi*1.5) > 0.1 {
		t.Errorf("the ring is %g long", around)
	}
	// A hole: no line goes through it.
	holed := func(i, j int) float64 {
		if i == 10 && j == 10 {
			return math.NaN()
		}
		return plane(i, j)
	}
	if n := len(ContourLines(xs, ys, holed, 0.07)); n != 2 {
		t.Errorf("%d lines beside a hole, want 2", n)
	}
	// A saddle parts into two lines that do not meet.
	saddle := func(i, j int) float64 { return (xs[i] + 0.01) * (ys[j] + 0.01) }
	if n := len(ContourLines(xs, ys, saddle, 0.3)); n != 2 {
		t.Errorf("%d lines over a saddle, want 2", n)
	}
	if lines := ContourLines(xs, ys, plane, 100); lines != nil {
		t.Errorf("%d lines of a level that is nowhere", len(lines))
	}
}
