package vary

import (
	"fmt"
	"math"
	"testing"
)

func TestContourLevels(t *testing.T) {
	t.Parallel()
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
	t.Parallel()
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

// The safest choices get a map; one whose own chance is not known is not among them.
func TestWhichMapsAreShown(t *testing.T) {
	t.Parallel()
	v := heatSample(9)
	v.Curves[2].Own = unknownFigure
	if got, want := fmt.Sprint(v.shown()), "[0 1 3 4 5 6 7 8]"; got != want {
		t.Errorf("maps of %s, want %s", got, want)
	}
}

func TestBounds(t *testing.T) {
	t.Parallel()
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
