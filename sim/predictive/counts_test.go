package predictive

import (
	"math"
	"testing"

	"arrayodds/array"
)

// By scipy 1.10.1: nb = stats.nbinom(a, b/(b + H)); nb.cdf(k), nb.sf(k - 1), nb.ppf.
func TestCountsAgainstSciPy(t *testing.T) {
	t.Parallel()
	// a = 12, b = 8, H = 2.5
	c := counted(&array.Log{Before: array.Gamma{Shape: 12, Rate: 8}, Expected: 2.5}, 0)
	for _, x := range []struct{ k, most, least float64 }{
		{0, 0.03826557600418709, 1}, {3, 0.5047990158738304, 0.683202680291866},
		{9, 0.9853228514731361, 0.030481275399095984}, {20, 0.9999993758133949, 1.7348024904092243e-06},
	} {
		if got := c.AtMost(x.k); math.Abs(got/x.most-1) > 1e-10 {
			t.Errorf("at most %v: %v, want %v", x.k, got, x.most)
		}
		if got := c.AtLeast(x.k); math.Abs(got/x.least-1) > 1e-10 {
			t.Errorf("at least %v: %v, want %v", x.k, got, x.least)
		}
	}
	if low, high := c.Range(); low != 0 || high != 9 || math.Abs(c.Mean()-3.75) > 1e-12 {
		t.Errorf("%v to %v, mean %v", low, high, c.Mean())
	}
	// a = 1.75, b = 0.574, H = 0.3
	c = counted(&array.Log{Before: array.Gamma{Shape: 1.75, Rate: 0.574}, Expected: 0.3}, 0)
	for k, want := range map[float64]float64{0: 0.47912717592404447, 2: 0.9027672480153247, 6: 0.9978033791251576} {
		if got := c.AtMost(k); math.Abs(got/want-1) > 1e-10 {
			t.Errorf("at most %v: %v, want %v", k, got, want)
		}
	}
	for k, want := range map[float64]float64{1: 0.5208728240759555, 5: 0.015195147238712943, 12: 1.4864735050556577e-05} {
		if got := c.AtLeast(k); math.Abs(got/want-1) > 1e-10 {
			t.Errorf("at least %v: %v, want %v", k, got, want)
		}
	}
}

// By hand, a = 1: the count is geometric, each step by H/(b + H) = 1/3, so that 2 or more
// come in 1/9. With a batch of variance 1 the squared
// variation is (1 + 1)(1 + 1) − 1 = 3, and a = 1/3.
func TestCountsByHand(t *testing.T) {
	t.Parallel()
	l := &array.Log{Before: array.Gamma{Shape: 1, Rate: 2}, Expected: 1}
	if got := counted(l, 0).AtLeast(2); math.Abs(got-1./9) > 1e-14 {
		t.Errorf("%v", got)
	}
	if c := counted(l, 1); math.Abs(c.Shape-1./3) > 1e-14 || math.Abs(c.Mean()-0.5) > 1e-14 {
		t.Errorf("%+v", c)
	}
}

// 0.9, 0.7, 0.95, 0.6 and 0.85 lie 0.3 above the middle: z = 0.3·√60 = 2.3238, and by
// scipy 1.10.1 2·stats.norm.sf(z) = 0.0201367515503463.
func TestLaplaceAgainstSciPy(t *testing.T) {
	t.Parallel()
	p, late := laplace([]float64{0.9, 0.7, 0.95, 0.6, 0.85}, 0)
	if math.Abs(p/0.0201367515503463-1) > 1e-9 || !late {
		t.Errorf("%v, %v", p, late)
	}
}

// By hand, at a constant rate: one drive from 0 to 10 h, one from 4 h to 8 h, where it
// fails. Watched are 4 drive-hours, then 2 a hour to 8 h, then 2 more: the failure lies at
// 12 of 14.
func TestRescaledByHand(t *testing.T) {
	t.Parallel()
	f := []array.Fleet{{Drives: []array.Observed{{Hours: 10}, {Entered: 4, Hours: 8, Failed: true}}}}
	if at := rescaled(f, array.ConstantRate{AFR: 0.02}); len(at) != 1 || math.Abs(at[0]-12./14) > 1e-12 {
		t.Errorf("%v", at)
	}
}

// A drive that is watched for four days has a quarter of its hazard on each, whatever
// others do; the days between which nobody is watched have none.
func TestHazardsByHand(t *testing.T) {
	t.Parallel()
	f := []array.Fleet{{Drives: []array.Observed{{Hours: 96}, {Hours: 48, Failed: true}}, Ends: []int32{104, 107}}}
	got := hazards(f, array.ConstantRate{AFR: 365}, 100, 107) // one failure a day
	for i, want := range []float64{0, 1, 2, 3, 4, 4, 5, 6} {
		if math.Abs(got[i]-want) > 1e-9 {
			t.Errorf("by day %d %v, want %v", i, got[i], want)
		}
	}
	for want, days := range map[int][]int{2: {30, 3, 9, 10}, 3: {30, 4, 10, 11, 9}, 1: {0, 7, 14}} { // 9 and 10; 4 to 10, 9 to 11
		if most := within(days); most != want {
			t.Errorf("%d within seven days of %v, want %d", most, days, want)
		}
	}
}

// counting is a law that counts how often it is asked.
type counting struct {
	array.Life
	asked *int
}

func (c counting) Expected(from, to float64) float64 {
	*c.asked++
	return c.Life.Expected(from, to)
}

// A record of 20 000 drives of 40 years, of which each began to be watched at another age,
// asks the law no more often than there are days of age; and its hazards are those of each
// drive by itself, over all days.
func TestManyOldDrives(t *testing.T) {
	t.Parallel()
	asked := 0
	law := array.WeibullLife{Shape: 1.7, Scale: 900_000}
	var f array.Fleet
	want := 0.0
	const days = 14_600
	for i := range 20_000 {
		d := array.Observed{Entered: 24 * float64(i%2000), Hours: 24 * float64(days+i%700)}
		f.Drives, f.Ends = append(f.Drives, d), append(f.Ends, int32(16_000+i%900))
		want += law.Expected(d.Entered, d.Hours)
	}
	got := hazards([]array.Fleet{f}, counting{law, &asked}, 0, 17_000)
	if asked > days+800 {
		t.Errorf("the law is asked %d times", asked)
	}
	if all := got[len(got)-1]; math.Abs(all/want-1) > 1e-9 {
		t.Errorf("%v are expected, want %v", all, want)
	}
}
