package fit

import (
	"math"
	"testing"

	"arrayodds/array"
)

// handbook is the record of NIST/SEMATECH e-Handbook of Statistical Methods,
// 8.4.1.3: 20 units, ten of which ran on when the test ended at 500 h.
func handbook() []array.Observed {
	var d []array.Observed
	for _, h := range []float64{54, 187, 216, 240, 244, 335, 361, 373, 375, 386} {
		d = append(d, array.Observed{Hours: h, Failed: true}, array.Observed{Hours: 500})
	}
	return d
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.10g, want %v ± %v", what, got, want, within)
	}
}

func TestHandbook(t *testing.T) {
	w := Fleet(array.Fleet{Drives: handbook()}).Weibull
	// The handbook prints 606.5280 where the likelihood has its peak at 606.5276
	// (scipy 1.10.1 finds it there too: 606.527551): what searched there stopped
	// a little early. The likelihoods tell which of the two is the better.
	near(t, "scale", w.Scale.Value, 606.5280, 5e-4)
	near(t, "scale", w.Scale.Value, 606.527551, 1e-5)
	rec := recordOf(handbook())
	if printed := logLikelihood(rec, w.Shape.Value, 606.5280); printed >= w.LogLikelihood {
		t.Errorf("the printed scale has a log likelihood of %.15g, the one found %.15g", printed, w.LogLikelihood)
	}
	near(t, "shape", w.Shape.Value, 1.7208, 5e-5)
	near(t, "-log L", -w.LogLikelihood, 75.135, 5e-4)
	near(t, "mean", w.Mean(), 540.737, 5e-4)
	near(t, "standard deviation", w.StdDev(), 323.806, 5e-4)
}

// Backblaze drive statistics, 2025 Q3 open dataset, lifetime table as re-analysed in
// public: AFR, and for a flat prior (a failure more in no time) the posterior's
// mean and its one-sided 95 % limit, all in per cent.
func TestOpenDriveStatistics(t *testing.T) {
	for _, c := range []struct{ failures, days, afr, mean, limit float64 }{
		{50, 3555491, 0.51, 0.52, 0.65},
		{21, 1416127, 0.54, 0.57, 0.78},
		{57, 3125133, 0.67, 0, 0},
	} {
		r := Fleet(array.Fleet{Sums: []array.Counted{{DriveDays: c.days, Failures: c.failures}}})
		near(t, "AFR", 100*r.AFR.Value, c.afr, 0.005)
		if c.mean == 0 {
			continue
		}
		flat := posterior(c.failures, c.days, 1)
		near(t, "posterior mean", 100*flat.Mean(), c.mean, 0.005)
		near(t, "limit", 100*flat.Quantile(0.95), c.limit, 0.005)
	}
}
