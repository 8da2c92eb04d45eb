package fit

import (
	"math"
	"slices"
	"testing"

	"arrayodds/array"
	"arrayodds/sim/estimate"
)

// row is an array.Observed in short.
type row struct {
	Entered, Hours float64
	Failed         bool
}

func drives(rows []row) []array.Observed {
	out := make([]array.Observed, len(rows))
	for i, r := range rows {
		out[i] = array.Observed(r)
	}
	return out
}

// staggered is a made record with entries at many ages: 45 drives, 36 failures.
var staggered = drives([]row{
	{0, 905, false}, {14667, 14763, true}, {14333, 15422, true}, {14000, 16079, true}, {13667, 16736, true}, {13333, 15769, false}, {13000, 18053, true}, {12667, 18715, true}, {12333, 19380, true}, {12000, 20050, true}, {11667, 17102, false}, {11333, 21408, true}, {11000, 22097, true}, {10667, 22794, true}, {10333, 23501, true}, {10000, 18531, false}, {9667, 24947, true}, {9333, 25688, true}, {9000, 26444, true}, {8667, 27215, true}, {8333, 20136, false}, {8000, 28811, true}, {7667, 29639, true}, {7333, 30491, true}, {7000, 31367, true}, {6667, 22031, false}, {6333, 33209, true}, {6000, 34181, true}, {5667, 35192, true}, {5333, 36248, true}, {5000, 24412, false}, {4667, 38518, true}, {4333, 39748, true}, {4000, 41056, true}, {3667, 42455, true}, {3333, 27710, false}, {3000, 45602, true}, {2667, 47407, true}, {2333, 49420, true}, {2000, 51710, true}, {1667, 33297, false}, {1333, 57623, true}, {1000, 61798, true}, {667, 67831, true}, {333, 79834, true},
})

// logLikelihood is the sum as it stands in the books, drive by drive.
func logLikelihood(r record, shape, scale float64) float64 {
	sum := 0.0
	for _, l := range r.lives {
		x := math.Pow(l.Entered/scale, shape) - math.Pow(l.Hours/scale, shape)
		if l.Failed {
			x += math.Log(shape/scale) + (shape-1)*math.Log(l.Hours/scale)
		}
		sum += l.count * x
	}
	return sum
}

// Figures of scipy 1.10.1 with numpy 1.24.2: stats.weibull_min.logpdf and logsf,
// maximised by optimize.minimize (Nelder-Mead), profiles crossed by
// optimize.brentq, second derivatives by differences.
func TestWeibullBesideScipy(t *testing.T) {
	for _, c := range []struct {
		name         string
		drives       []array.Observed
		shape, scale estimate.Estimate
		logL, p      float64
		cov          [2][2]float64
	}{
		{"handbook", handbook(),
			estimate.Estimate{Value: 1.72079730, Low: 0.905645, High: 2.885738}, estimate.Estimate{Value: 606.527551, Low: 437.5567, High: 1118.8776},
			-75.13461816, 0.09182159224122165,
			[2][2]float64{{0.25215505, -28.313593}, {-28.313593, 15602.6604}}},
		{"staggered", staggered,
			estimate.Estimate{Value: 2.26124007, Low: 1.670091, High: 2.889394}, estimate.Estimate{Value: 38539.736742, Low: 32542.2422, High: 44939.8275},
			-397.20153738, 1.4093182368338931e-05,
			[2][2]float64{{0.0965526567, 349.570303}, {349.570303, 9334658.37}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Fleet(array.Fleet{Drives: c.drives})
			w := r.Weibull
			for _, v := range []struct {
				what      string
				got, want float64
				relative  float64
			}{
				{"shape", w.Shape.Value, c.shape.Value, 1e-7}, {"its low end", w.Shape.Low, c.shape.Low, 1e-6}, {"its high end", w.Shape.High, c.shape.High, 1e-6},
				{"scale", w.Scale.Value, c.scale.Value, 1e-7}, {"its low end", w.Scale.Low, c.scale.Low, 1e-6}, {"its high end", w.Scale.High, c.scale.High, 1e-6},
				{"log likelihood", w.LogLikelihood, c.logL, 1e-9}, {"p", *r.LikelihoodRatioP, c.p, 1e-6},
				{"variance of the shape", w.Covariance[0][0], c.cov[0][0], 1e-5}, {"covariance", w.Covariance[0][1], c.cov[0][1], 1e-5},
				{"covariance", w.Covariance[1][0], c.cov[1][0], 1e-5}, {"variance of the scale", w.Covariance[1][1], c.cov[1][1], 1e-5},
			} {
				near(t, v.what, v.got, v.want, v.relative*math.Abs(v.want))
			}
		})
	}
}

// Figures of numpy 1.24.2, from the risk sets written out.
func TestCurveBesideNumpy(t *testing.T) {
	type step = Survived
	for _, c := range []struct {
		name   string
		drives []array.Observed
		steps  int
		want   []step
	}{
		{"handbook", handbook(), 12, []step{
			{54, 0.9500000000, 0.6947431933, 0.9928022286, 20},
			{240, 0.8000000000, 0.5511455643, 0.9198179136, 17},
			{386, 0.5000000000, 0.2713277573, 0.6918924594, 11},
		}},
		{"staggered", staggered, 37, []step{
			{14763, 0.9772727273, 0.8494117097, 0.9967669934, 44},
			{18053, 0.8840879916, 0.7435198677, 0.9500748672, 38},
			{31367, 0.4839941532, 0.3183187109, 0.6312549540, 18},
			{67831, 0.0303682606, 0.0023263484, 0.1334816692, 2},
			{79834, 0, 0, 0.1334816692, 1},
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := Fleet(array.Fleet{Drives: c.drives}).Survival
			if len(got) != c.steps {
				t.Errorf("%d steps, want %d", len(got), c.steps)
			}
			if got[0].Value != 1 || got[0].Hours != 0 {
				t.Errorf("begins with %+v", got[0])
			}
			for _, want := range c.want {
				i := slices.IndexFunc(got, func(s Survived) bool { return s.Hours == want.Hours })
				if i < 0 {
					t.Errorf("no step at %v h", want.Hours)
					continue
				}
				near(t, "survival", got[i].Value, want.Value, 1e-10)
				near(t, "its low end", got[i].Low, want.Low, 1e-9)
				near(t, "its high end", got[i].High, want.High, 1e-9)
				if got[i].AtRisk != want.AtRisk {
					t.Errorf("%d at risk at %v h, want %d", got[i].AtRisk, want.Hours, want.AtRisk)
				}
			}
		})
	}
}

// Figures of scipy 1.10.1: stats.gamma.ppf(q, k + ½, scale = 1/years).
func TestRateBesideScipy(t *testing.T) {
	for _, c := range []struct{ failures, days, value, low, high float64 }{
		{0, 1e5, 0, 0, 0.009168592291849671}, // the low end is 0 by convention
		{1, 36500, 0.01, 0.0010789764131194893, 0.04674201802248074},
		{50, 3555491, 0.005132905694319012, 0.003853963745571949, 0.006708692786423038},
		{21, 1416127, 0.00541265013660498, 0.0034519014080025166, 0.008117732296909893},
	} {
		r := Rate(c.failures, c.days)
		near(t, "rate", r.Value, c.value, 1e-12)
		near(t, "low", r.Low, c.low, 1e-9*c.low)
		near(t, "high", r.High, c.high, 1e-9*c.high)
	}
}
