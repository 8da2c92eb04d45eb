package study_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"arrayodds/array/site/axis"
	"arrayodds/array/thorough"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"

	"gonum.org/v1/gonum/integrate/quad"
)

// exponential is a site whose choices have a closed form: constant rates, exponential
// repair.
const exponential = `service_life = "5 y"
[[drives]]
label = "4 TB"
capacity = "4 TB"
life = LIFE
transfer = "200 MB/s"
[[choices]]
label = "single"
drive = "4 TB"
layout = "RAID 5"
drives = 8
[[choices]]
label = "double"
drive = "4 TB"
layout = "RAID 6"
drives = 8
[care]
restore = RESTORE
`

func opened(t *testing.T, file string) *axis.Source {
	t.Helper()
	s, err := axis.Open(strings.NewReader(file), "site.toml")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func comparisonOf(t *testing.T, s *axis.Source, opt engine.Options) study.Comparison {
	t.Helper()
	var all []int
	for i := range s.File().Site.Choices {
		all = append(all, i)
	}
	c, err := study.Compare(context.Background(), study.Request{Source: s, Choices: all, Options: opt}, sim.Run)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// The chance in all is the closed form integrated over the laws of the inputs, by gonum's
// Gauss-Legendre rule, and the spread its quantiles: the chance rises with the rate, so a
// quantile of the one is at that of the other. A range and a record, each with a time to
// restore that is known; 16 seeds, without make thorough 8, of which a 95 % interval may miss some.
func TestInAllIsTheIntegral(t *testing.T) {
	t.Parallel()
	for i, life := range []string{`{ afr = { low = "0.5 %", likely = "1 %", high = "8 %" } }`, `{ failures = 4, drive_days = 100000 }`} {
		if !thorough.Part(i, 2) {
			continue
		}
		file := strings.NewReplacer("LIFE", life, "RESTORE", `{ exponential = { low = "47.9 h", likely = "48 h", high = "48.1 h" } }`).Replace(exponential)
		s := opened(t, file)
		var rate axis.Input
		for _, in := range s.Inputs() {
			if strings.Contains(in.Axis.Path, "afr") {
				rate = in
			}
		}
		at := func(u float64) (exact [2]float64) {
			f, err := s.With(rate.Axis.Set(rate.At(u)))
			if err != nil {
				t.Fatal(err)
			}
			for i, c := range f.Site.Choices {
				r, err := sim.Run(context.Background(), f.Site, c, engine.Options{Seed: 1, Accuracy: 1, MaxTrials: 128})
				if err != nil || r.Exact == nil {
					t.Fatal(err)
				}
				exact[i] = *r.Exact
			}
			return exact
		}
		var want [2]float64
		const nodes = 48
		x, weight := make([]float64, nodes), make([]float64, nodes)
		quad.Legendre{}.FixedLocations(x, weight, 0, 1)
		for k, u := range x {
			for i, p := range at(u) {
				want[i] += weight[k] * p
			}
		}
		low, high := at(0.05), at(0.95)
		below, above := [2][2]float64{at(0.01), at(0.12)}, [2][2]float64{at(0.88), at(0.99)}
		seeds := thorough.Count(16, 8)
		covered := 0
		for seed := range seeds {
			c := comparisonOf(t, s, engine.Options{Seed: uint64(seed), Accuracy: 0.05, MaxTrials: 1e6})
			for i, o := range c.Outcomes {
				d := o.Doubt
				if d.LossInAll.Low <= want[i] && want[i] <= d.LossInAll.High {
					covered++
				}
				if e := d.LossInAll; math.Abs(e.Value/want[i]-1) > 0.25 {
					t.Errorf("%s, %s, seed %d: in all %v, the integral is %g", life, o.Choice.Label, seed, e, want[i])
				}
				// 64 points leave an end of the spread where a few per cent more or less
				// of the law would be.
				for _, end := range []struct{ got, want, apart float64 }{{d.Low, low[i], math.Log(below[1][i] / below[0][i])}, {d.High, high[i], math.Log(above[1][i] / above[0][i])}} {
					if math.Abs(math.Log(end.got/end.want)) > end.apart {
						t.Errorf("%s, %s, seed %d: an end of the spread is %g, of the law %g", life, o.Choice.Label, seed, end.got, end.want)
					}
				}
			}
			if s := c.Doubt.Safer[1][0]; s != 1 {
				t.Errorf("%s: double parity is safer in %g of the settings", life, s)
			}
		}
		if covered < 2*seeds*4/5 {
			t.Errorf("%s: %d of %d intervals hold the integral", life, covered, 2*seeds)
		}
	}
}

// The narrower the doubt, the nearer the figures are to those as entered.
func TestNarrowDoubtIsAsEntered(t *testing.T) {
	t.Parallel()
	s := opened(t, strings.NewReplacer("LIFE", `{ afr = { low = "0.999999 %", likely = "1 %", high = "1.000001 %" } }`, "RESTORE", `{ exponential = { low = "47.9999 h", likely = "48 h", high = "48.0001 h" } }`).Replace(exponential))
	c := comparisonOf(t, s, engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	for _, o := range c.Outcomes {
		d, as := o.Doubt, o.Result.LossChance.Value
		for _, x := range []float64{d.LossInAll.Value, d.Low, d.Median, d.High} {
			if math.Abs(x/as-1) > 1e-4 {
				t.Errorf("%s: %+v, as entered %g", o.Choice.Label, d, as)
			}
		}
	}
}

// What the file leaves out is tried, and what would turn the answer is marked; what moves
// nothing is named.
func TestLeftOut(t *testing.T) {
	t.Parallel()
	file := strings.NewReplacer("LIFE", `{ afr = { low = "0.5 %", likely = "1 %", high = "2 %" } }`, "RESTORE", `"24 h"`).Replace(exponential)
	file = strings.Replace(file, "[care]", "[care]\nscrub = { low = \"100 h\", likely = \"168 h\", high = \"300 h\" }", 1)
	file = strings.Replace(file, "transfer", "price = { low = 90, likely = 100, high = 140 }\ntransfer", 1) // which moves the cost
	c := comparisonOf(t, opened(t, file), engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	if len(c.Doubt.Idle) != 1 || c.Doubt.Idle[0].Path != "care.scrub" {
		t.Errorf("moves nothing: %+v", c.Doubt.Idle)
	}
	got := map[string]study.LeftOut{}
	for _, l := range c.Doubt.LeftOut {
		got[l.Key] = l
	}
	// Twice the rate after the first failure and four times after the second are twice
	// and eight times the loss, as the textbook formula has one factor of the rate for
	// each drive that is lost later.
	if f := got["degraded_multiplier"].Factor; math.Abs(f[0].Value-2) > 0.2 || math.Abs(f[1].Value-8) > 1 || got["degraded_multiplier"].Matters {
		t.Errorf("%+v", got["degraded_multiplier"])
	}
	// Half of the drives struck at once in one life of 200 are more than one of these
	// arrays is lost by itself.
	if l := got["common_cause"]; !l.Matters || l.Chance[1].Value < 0.003 || l.Chance[1].Value > 0.005 {
		t.Errorf("%+v", l)
	}
	if _, ok := got["stop"]; ok {
		t.Error("a file without unreadable sectors was tried with stop")
	}
}
