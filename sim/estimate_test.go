package sim

import (
	"context"
	"math"
	"strings"
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/model"

	"gonum.org/v1/gonum/stat"
)

func TestMeanIsTheLibrarys(t *testing.T) {
	xs := []float64{0, 0, 3.5, 1, 0.25, 7, 0, 2}
	sum, squares := 0.0, 0.0
	for _, x := range xs {
		sum += x
		squares += x * x
	}
	e := mean(float64(len(xs)), sum, squares)
	m, sd := stat.MeanStdDev(xs, nil)
	se := stat.StdErr(sd, float64(len(xs)))
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"value", e.Value, m}, {"high", e.High, m + 1.959963984540054*se}, {"low", e.Low, math.Max(0, m-1.959963984540054*se)},
		{"relative error", e.RelativeError, se / m},
	} {
		if math.Abs(c.got-c.want) > 1e-14 {
			t.Errorf("%s: %g, want %g", c.what, c.got, c.want)
		}
	}
	if e := mean(5, 10, 20); e != closed(2) {
		t.Errorf("equal trials: %+v", e)
	}
}

// scipy 1.10.1, scipy.stats.beta.ppf.
func TestShareIsClopperPearson(t *testing.T) {
	for _, c := range []struct{ k, n, low, high float64 }{
		{0, 1000, 0, 0.00368208389687},
		{3, 1000, 0.00061909993165, 0.00874202323848},
		{500, 1000, 0.468549172972, 0.531450827028},
		{1000, 1000, 0.996317916103, 1},
	} {
		e := share(c.k, c.n)
		if math.Abs(e.Low-c.low) > 1e-9 || math.Abs(e.High-c.high) > 1e-9 || e.Value != c.k/c.n {
			t.Errorf("%g of %g: %+v, want %g to %g", c.k, c.n, e, c.low, c.high)
		}
	}
}

// A sample that rests on one trial does not stop a run, however small its error
// looks, and is not passed off as an answer.
func TestDistrust(t *testing.T) {
	sys := group(8, 1, halfMillion, law.Exponential(48), 43800)
	s := model.NewSums(sys)
	for i := range 200 {
		tr := s.Begin()
		w := 1e-6
		if i == 17 {
			w = 1e-3
		}
		tr.FirstLoss(100, w)
		s.End()
	}
	why := strings.Join(distrust(s), "\n")
	if !strings.Contains(why, "independent samples") || !strings.Contains(why, "one simulated life makes 83 %") {
		t.Errorf("distrust says %q", why)
	}

	fine := lossSums(t, sys, Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	if why := distrust(fine); len(why) > 0 {
		t.Errorf("a good sample is distrusted: %q", why)
	}
}

func lossSums(t *testing.T, sys *model.System, opt Options) *model.Sums {
	t.Helper()
	s, _, err := simulate(context.Background(), sys, opt)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Plain mode that sees no loss says what can still be, and that it saw none.
func TestNothingSeenIsNotNothing(t *testing.T) {
	sys := group(8, 3, halfMillion, law.Exponential(48), 43800)
	s, by, err := simulate(context.Background(), sys, Options{Seed: 1, Accuracy: 0.05, MaxTrials: 2560, Plain: true})
	if err != nil || by != ByBudget {
		t.Fatalf("stopped by %q, %v", by, err)
	}
	r := summarise(sys, s, true)
	if r.LossChance.Value != 0 || r.LossChance.RelativeError != 1 || r.LossChance.High < 1e-3 || len(r.Warnings) == 0 {
		t.Errorf("%+v, warnings %q", r.LossChance, r.Warnings)
	}
}

// What cannot fail within the life is known at once, without a doubt.
func TestNothingCanFail(t *testing.T) {
	sys := group(8, 1, law.Weibull{Shape: 2, Scale: 1e5, Min: 50000}, law.Exponential(48), 43800)
	s, by, err := simulate(context.Background(), sys, Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	if err != nil || by != ByAccuracy || s.N > 4096 {
		t.Fatalf("%g trials, stopped by %q, %v", s.N, by, err)
	}
	r := summarise(sys, s, false)
	if r.LossChance != closed(0) || r.DrivesReplaced != closed(0) || len(r.Warnings) > 0 {
		t.Errorf("%+v", r)
	}
}
