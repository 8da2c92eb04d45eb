package charts

import (
	"math"
	"testing"
)

// On a plane, which straight lines follow exactly, every point of a line has the
// level; on a cone the lines are rings that keep to the circle as well as chords do,
// and close. (Geometry.)
func TestContour(t *testing.T) {
	var xs, ys []float64
	for i := range 21 {
		xs, ys = append(xs, float64(i-10)/5), append(ys, float64(i-10)/4)
	}
	plane := func(i, j int) float64 { return xs[i] + 2*ys[j] }
	for _, level := range []float64{-3.3, 0.07, 2.5} {
		lines := contour(xs, ys, plane, level)
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
	ring := contour(xs, ys, cone, 1.5)
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
	if n := len(contour(xs, ys, holed, 0.07)); n != 2 {
		t.Errorf("%d lines beside a hole, want 2", n)
	}
	// A saddle parts into two lines that do not meet.
	saddle := func(i, j int) float64 { return (xs[i] + 0.01) * (ys[j] + 0.01) }
	if n := len(contour(xs, ys, saddle, 0.3)); n != 2 {
		t.Errorf("%d lines over a saddle, want 2", n)
	}
	if lines := contour(xs, ys, plane, 100); lines != nil {
		t.Errorf("%d lines of a level that is nowhere", len(lines))
	}
}

func TestContourLevels(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		want      []float64
	}{
		{-4.5, -1.2, []float64{-2, -3, -4}},
		{-3.2, -2.4, []float64{-3, -2.69897}},
		{-20, -1, []float64{-3, -6, -9, -12, -15, -18}},
		{-0.5, 0, []float64{-0.30103}},
	} {
		got := contourLevels(c.low, c.high)
		if len(got) != len(c.want) {
			t.Errorf("%g to %g: %v, want %v", c.low, c.high, got, c.want)
			continue
		}
		for i := range got {
			if math.Abs(got[i]-c.want[i]) > 1e-5 {
				t.Errorf("%g to %g: %v, want %v", c.low, c.high, got, c.want)
			}
		}
	}
}

// Each colour is darker than the one for a smaller chance, by the relative luminance
// of ITU-R BT.709 (from memory), so that grey prints and colour-blind readers tell
// them apart.
func TestHeatColoursDarken(t *testing.T) {
	s := heatScaleFor(-9.2, -0.3)
	luminance := func(e float64) float64 {
		var c [3]float64
		for k := range c {
			var v int
			for _, d := range s.colour(e)[1+2*k : 3+2*k] {
				v = v*16 + map[bool]int{true: int(d - '0'), false: int(d-'a') + 10}[d <= '9']
			}
			c[k] = math.Pow(float64(v)/255, 2.2)
		}
		return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2]
	}
	for e := -9.5; e < 0; e += 0.5 {
		if a, b := luminance(e), luminance(e+0.5); e >= float64(s.low) && !(b < a) {
			t.Errorf("at 10^%g luminance %g, at 10^%g %g", e, a, e+0.5, b)
		}
	}
	for e, want := range map[float64]string{0: "certain", -1: "1 in 10", -1.69897: "1 in 50", -3: "1 in 1\u202f000", -6: "1 in 1 million"} {
		if got := oneIn(e); got != want {
			t.Errorf("10^%g is %q, want %q", e, got, want)
		}
	}
}

func TestBounds(t *testing.T) {
	got := bounds([]float64{0, 1, 3})
	for i, want := range []float64{-0.5, 0.5, 2, 4} {
		if got[i] != want {
			t.Errorf("%v", got)
		}
	}
	if got := bounds([]float64{7}); got[0] != 6.5 || got[1] != 7.5 {
		t.Errorf("%v", got)
	}
}
