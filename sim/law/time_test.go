package law

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"
	"arrayodds/sim/stream"

	"gonum.org/v1/gonum/stat/distuv"
)

// times are the laws of chance that a length may have, and beside each the
// density and the distribution of its part of chance, from gonum.
var times = []struct {
	name string
	law  Time
	min  float64
	dist interface {
		Prob(float64) float64
		CDF(float64) float64
		Survival(float64) float64
		Mean() float64
		Variance() float64
	}
}{
	{"exponential", Exponential(48), 0, distuv.Exponential{Rate: 1.0 / 48}},
	{"Weibull", Weibull{Shape: 2, Scale: 12, Min: 6}, 6, distuv.Weibull{K: 2, Lambda: 12}},
	{"Weibull, shape 3", Weibull{Shape: 3, Scale: 168, Min: 6}, 6, distuv.Weibull{K: 3, Lambda: 168}},
	{"Weibull, shape 1", Weibull{Shape: 1, Scale: 20}, 0, distuv.Weibull{K: 1, Lambda: 20}},
	{"Weibull, heavy", Weibull{Shape: 0.6, Scale: 20}, 0, distuv.Weibull{K: 0.6, Lambda: 20}},
	{"lognormal", Lognormal{math.Log(24), 0.5}, 0, distuv.LogNormal{Mu: math.Log(24), Sigma: 0.5}},
	{"lognormal, heavy", Lognormal{math.Log(24), 1.08}, 0, distuv.LogNormal{Mu: math.Log(24), Sigma: 1.08}},
}

// moment is ∫ x^r f(x) dx from 0 to x, in the variable log x.
func moment(density func(float64) float64, r int, x float64) float64 {
	f := func(u float64) float64 {
		v := math.Exp(u)
		return math.Exp(float64(r+1)*u) * density(v)
	}
	return panels(f, -40, math.Log(x), 400)
}

const farOut = 1e8 // hours: beyond all that these laws have, tilted too

// quantiles fails where the distribution puts one of the draws' own quantiles
// where it cannot be. By the distribution the i-th of n draws has a uniform
// order statistic, which is a Beta(i, n + 1 − i); one that lies further out than
// a normal deviate of 4 does (a chance of 3.2e-5 on each side) is an error.
func quantiles(t *testing.T, x []float64, cdf func(float64) float64) {
	t.Helper()
	slices.Sort(x)
	n := float64(len(x))
	for _, p := range []float64{0.001, 0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99, 0.999} {
		i := math.Floor(p * n)
		v := x[int(i)-1]
		order := distuv.Beta{Alpha: i, Beta: n + 1 - i}
		if b := order.CDF(cdf(v)); math.Min(b, 1-b) < distuv.UnitNormal.CDF(-4) {
			t.Errorf("%.6g of the draws are below %.6g, the law says %.6g", p, v, cdf(v))
		}
	}
}

func TestTimesDraw(t *testing.T) {
	for i, c := range times {
		t.Run(c.name, func(t *testing.T) {
			const n = 200_000
			s := stream.New(21, uint64(i))
			x := make([]float64, n)
			sum := 0.0
			for i := range x {
				x[i] = c.law.Draw(s)
				if x[i] < c.min {
					t.Fatalf("drew %g, below the minimum of %g", x[i], c.min)
				}
				sum += x[i]
			}
			want := c.min + c.dist.Mean()
			if d := math.Abs(sum/n - want); d > 4*math.Sqrt(c.dist.Variance()/n) {
				t.Errorf("mean of the draws %.6g, want %.6g", sum/n, want)
			}
			quantiles(t, x, func(v float64) float64 { return c.dist.CDF(v - c.min) })
		})
	}
}

func TestTimesMean(t *testing.T) {
	for _, c := range times {
		t.Run(c.name, func(t *testing.T) {
			near(t, "Mean", c.law.Mean(), c.min+c.dist.Mean(), 1e-13)
			for _, d := range []float64{0, 1e-6, 0.1, 3, 6, 6.5, 20, 60, 500, 1e4} {
				want := min(d, c.min)
				if d > c.min {
					// Smooth at 0 for every shape in the variable log x.
					want += panels(func(u float64) float64 { return math.Exp(u) * c.dist.Survival(math.Exp(u)) }, -40, math.Log(d-c.min), 400)
				}
				near(t, fmt.Sprintf("MeanWithin(%g)", d), c.law.MeanWithin(d), want, 1e-10)
			}
			near(t, "MeanWithin of all", c.law.MeanWithin(farOut), c.law.Mean(), 1e-12)
		})
	}
}

func TestTimesParts(t *testing.T) {
	for _, c := range times {
		fixed, rest := c.law.Parts()
		if fixed != c.min || rest == nil {
			t.Fatalf("%s: fixed part %g and rest %v, want %g and a law", c.name, fixed, rest, c.min)
		}
		near(t, c.name+": mean of the parts", fixed+math.Exp(rest.LogMoment(1)), c.law.Mean(), 1e-13)
	}
	if fixed, rest := Fixed(7).Parts(); fixed != 7 || rest != nil {
		t.Errorf("a fixed length has the parts %g, %v", fixed, rest)
	}
}

// Moments and tilted draws up to the power that a tolerance of 16 can ask for.
func TestTilted(t *testing.T) {
	for i, c := range times {
		_, law := c.law.Parts()
		for k, r := range []int{0, 1, 2, 3, 5, 9, 17} {
			if !thorough.Part(i+k, 2) {
				continue
			}
			if c.name == "lognormal, heavy" && r > 5 {
				continue // its 17th moment lies beyond farOut; closed forms below
			}
			t.Run(fmt.Sprintf("%s, %d", c.name, r), func(t *testing.T) {
				whole := moment(c.dist.Prob, r, farOut)
				near(t, "moment", math.Exp(law.LogMoment(r)), whole, 1e-9)

				const n = 20_000
				s := stream.New(22, uint64(100*i+r))
				x := make([]float64, n)
				sum := 0.0
				for i := range x {
					x[i] = law.DrawTilted(s, r)
					sum += x[i]
				}
				// The tilted law's mean and mean square are ratios of moments
				// of the law itself.
				mean := moment(c.dist.Prob, r+1, farOut) / whole
				square := moment(c.dist.Prob, r+2, farOut) / whole
				if d := math.Abs(sum/n - mean); d > 4*math.Sqrt((square-mean*mean)/n) {
					t.Errorf("mean of the tilted draws %.6g, want %.6g", sum/n, mean)
				}
				quantiles(t, x, func(v float64) float64 { return moment(c.dist.Prob, r, v) / whole })
			})
		}
	}
}

// The tilted laws that gonum has under a name: x^r times an exponential is a
// Gamma, x^r times a lognormal is a lognormal.
func TestTiltedByName(t *testing.T) {
	for _, r := range []int{1, 8, 9, 17} {
		for _, c := range []struct {
			law Tiltable
			cdf func(float64) float64
		}{
			{Exponential(48), distuv.Gamma{Alpha: float64(r + 1), Beta: 1.0 / 48}.CDF},
			{Lognormal{3, 1.4}, distuv.LogNormal{Mu: 3 + float64(r)*1.4*1.4, Sigma: 1.4}.CDF},
		} {
			s := stream.New(23, uint64(r))
			x := make([]float64, 50_000)
			for i := range x {
				x[i] = c.law.DrawTilted(s, r)
			}
			quantiles(t, x, c.cdf)
		}
	}
}

// By scipy 1.10.1: stats.lognorm(σ, scale=median) with σ = ln(p90/median) ÷
// stats.norm.ppf(.9), its .mean, and integrate.quad of its .sf.
func TestLognormalAgainstScipy(t *testing.T) {
	for _, c := range []struct{ median, p90, sigma, mean, x, cdf, within float64 }{
		{24, 95.787243753415112, 1.08, 43.0023097921728, 8, 0.154521157619708, 7.53728966498},
		{24, 95.787243753415112, 1.08, 43.0023097921728, 24, 0.5, 18.0233804089},
		{24, 95.787243753415112, 1.08, 43.0023097921728, 240, 0.983497531717476, 40.6676029061},
		{4, 30, 1.57223718086289, 13.766790928807, 4.0 / 3, 0.242351842767775, 1.16952962429},
		{4, 30, 1.57223718086289, 13.766790928807, 40, 0.928475106415593, 9.15397653042},
	} {
		l := NewLognormal(c.median, c.p90)
		what := fmt.Sprintf("median %g, nine in ten below %g", c.median, c.p90)
		near(t, what+": Sigma", l.Sigma, c.sigma, 1e-13)
		near(t, what+": Mean", l.Mean(), c.mean, 1e-13)
		near(t, what+": MeanWithin", l.MeanWithin(c.x), c.within, 1e-11)
		s := stream.New(24, 0)
		below := 0.0
		const n = 100_000
		for range n {
			if l.Draw(s) < c.x {
				below++
			}
		}
		if d := math.Abs(below/n - c.cdf); d > 4*math.Sqrt(c.cdf*(1-c.cdf)/n) {
			t.Errorf("%s: %.5f drawn below %g, want %.5f", what, below/n, c.x, c.cdf)
		}
	}
}

func TestFixed(t *testing.T) {
	f := Fixed(5)
	if f.Mean() != 5 || f.Draw(nil) != 5 || f.MeanWithin(3) != 3 || f.MeanWithin(9) != 5 {
		t.Errorf("mean %g, draw %g, within 3 and 9: %g, %g", f.Mean(), f.Draw(nil), f.MeanWithin(3), f.MeanWithin(9))
	}
}

func TestOfTime(t *testing.T) {
	for _, c := range []struct {
		of   array.Time
		want Time
	}{
		{array.Fixed{Hours: 3}, Fixed(3)},
		{array.Exponential{Mean: 48}, Exponential(48)},
		{array.WeibullTime{Min: 6, Scale: 12, Shape: 2}, Weibull{Shape: 2, Scale: 12, Min: 6}},
		{array.Lognormal{Median: 24, P90: 72}, NewLognormal(24, 72)},
	} {
		got, err := OfTime(c.of)
		if err != nil || got != c.want {
			t.Errorf("%#v becomes %#v, %v, want %#v", c.of, got, err, c.want)
		}
	}
	if _, err := OfTime(array.OpenHours{Within: 8}); err == nil {
		t.Error("open hours depend on the hour, but there was no error")
	}
}

func TestTimesNoAllocations(t *testing.T) {
	s := stream.New(1, 1)
	for _, c := range times {
		_, rest := c.law.Parts()
		sink := 0.0
		if n := testing.AllocsPerRun(100, func() {
			sink += c.law.Draw(s) + rest.DrawTilted(s, 3) + c.law.MeanWithin(sink)
		}); n != 0 {
			t.Errorf("%s: %g allocations a draw, want 0", c.name, n)
		}
	}
}
