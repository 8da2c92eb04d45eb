package predictive

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"
	"arrayodds/sim/law"
	"arrayodds/sim/stream"
)

// drawn is a site whose drives were watched as the assumptions say: in three deliveries,
// each drive that fails replaced by a new one the same day, its failures drawn from the law
// times a multiplier drawn from the law of it.
func drawn(t *testing.T, rnd *stream.Stream, stated array.Life, before array.Gamma, change func(day int) float64) array.Drive {
	t.Helper()
	life, _, err := law.OfLife(stated, 1)
	if err != nil {
		t.Fatal(err)
	}
	by := rnd.Gamma(before.Shape) / before.Rate
	var f array.Fleet
	l := &array.Log{Before: before, Stated: stated, Multiplier: 1}
	const days, slots = 1500, 60
	for slot := range slots {
		begin := 150 * (slot % 3)
		for begin < days {
			// Until the age at which the cumulative hazard has reached an exponential draw.
			hours := life.Age(rnd.Exp() / by)
			if change != nil {
				hours /= change(begin)
			}
			ran := math.Ceil(hours / 24)
			failed := float64(begin)+ran <= days
			if !failed {
				ran = float64(days - begin)
			}
			d := array.Observed{Hours: 24 * ran, Failed: failed}
			f.Drives, f.Ends = append(f.Drives, d), append(f.Ends, int32(20000+begin+int(ran)))
			l.DriveDays += ran
			l.Expected += stated.Expected(0, d.Hours)
			if failed {
				l.Failures++
			}
			begin += int(ran)
		}
	}
	l.Fleets, l.After = []array.Fleet{f}, before.Updated(l.Failures, l.Expected)
	return array.Drive{Label: "a", Log: l}
}

// Where the assumptions are right, no look finds something rarer than p more often than in
// p of the sites; counts and clusters are whole numbers, and find it less often.
func TestChancesAreCalibrated(t *testing.T) {
	t.Parallel()
	sites := thorough.Count(600, 100)
	rnd := stream.New(11, 0)
	for i, stated := range []array.Life{array.ConstantRate{AFR: 0.05}, array.WeibullLife{Shape: 1.7, Scale: 90_000}, array.RateByYear{AFR: []float64{0.08, 0.02, 0.05}}} {
		if !thorough.Part(i, 3) {
			continue
		}
		below := map[Kind]map[float64]int{}
		looked := map[Kind]int{}
		unlikely := 0
		for range sites {
			d := drawn(t, rnd, stated, array.Gamma{Shape: 12.3, Rate: 11.8}, nil)
			r := Look(array.Site{Drives: []array.Drive{d}})
			any := false
			for _, c := range r.Checks {
				looked[c.Kind]++
				if below[c.Kind] == nil {
					below[c.Kind] = map[float64]int{}
				}
				for _, p := range []float64{0.01, 0.05, 0.2, 0.5} {
					if c.P <= p {
						below[c.Kind][p]++
					}
				}
				any = any || !c.Likely
			}
			if any {
				unlikely++
			}
		}
		for _, kind := range []Kind{Count, Ages, Clusters} {
			n := float64(looked[kind])
			if n < 0.9*float64(sites) {
				t.Fatalf("%T: only %v looks at the %s", stated, n, kind)
			}
			for p, found := range below[kind] {
				share, se := float64(found)/n, math.Sqrt(p*(1-p)/n)
				if share > p+4*se || kind == Ages && share < p-4*se {
					t.Errorf("%T, %s: rarer than %v in %.4f of the sites", stated, kind, p, share)
				}
				// Of a count that is not far from a dozen, half is left of it at least.
				if kind == Count && share < 0.4*p-4*se {
					t.Errorf("%T, %s: rarer than %v in only %.4f of the sites", stated, kind, p, share)
				}
			}
		}
		if share := float64(unlikely) / float64(sites); share > together+4*math.Sqrt(together/float64(sites)) || share == 0 {
			t.Errorf("%T: %.4f of the sites are called unlikely", stated, share)
		}
	}
}

// A fit is not certain: where each site's shape is drawn from what the errors leave of it,
// ages are found rarer than p in p of the sites, and not more often.
func TestAgesOfAFitAreCalibrated(t *testing.T) {
	t.Parallel()
	sites := thorough.Count(600, 100)
	rnd := stream.New(12, 0)
	fit := array.FittedWeibull{Shape: 1.3, Scale: 90_000, ShapeError: 0.2}
	below, looked := map[float64]int{}, 0
	for range sites {
		d := drawn(t, rnd, array.WeibullLife{Shape: fit.Shape * math.Exp(fit.ShapeError*rnd.Norm()), Scale: fit.Scale}, array.Gamma{Shape: 12.3, Rate: 11.8}, nil)
		d.Log.Stated = fit
		for _, c := range Look(array.Site{Drives: []array.Drive{d}}).Checks {
			if c.Kind != Ages {
				continue
			}
			looked++
			for _, p := range []float64{0.01, 0.05, 0.2, 0.5} {
				if c.P <= p {
					below[p]++
				}
			}
		}
	}
	n := float64(looked)
	if n < 0.8*float64(sites) {
		t.Fatalf("only %v looks", n)
	}
	for p, found := range below {
		if share, se := float64(found)/n, math.Sqrt(p*(1-p)/n); math.Abs(share-p) > 4*se {
			t.Errorf("rarer than %v in %.4f of the sites", p, share)
		}
	}
}

// Each assumption that is wrong is the one to be doubted.
func TestTheWrongAssumptionIsDoubted(t *testing.T) {
	t.Parallel()
	narrow := array.Gamma{Shape: 12.3, Rate: 11.8}
	look := func(d array.Drive) (all map[Kind]Check) {
		all = map[Kind]Check{}
		for _, c := range Look(array.Site{Drives: []array.Drive{d}}).Checks {
			all[c.Kind] = c
		}
		return all
	}
	// Four times the rate.
	d := drawn(t, stream.New(1, 0), array.ConstantRate{AFR: 0.2}, narrow, nil)
	d.Log.Stated = array.ConstantRate{AFR: 0.05}
	d.Log.Expected /= 4
	if c := look(d); c[Count].Likely || !strings.Contains(c[Count].Doubt, "drives.a.life first: a higher rate") || !c[Ages].Likely || !c[Clusters].Likely {
		t.Errorf("%+v", c)
	}
	// A twentieth.
	d = drawn(t, stream.New(2, 0), array.ConstantRate{AFR: 0.005}, narrow, nil)
	d.Log.Stated = array.ConstantRate{AFR: 0.1}
	d.Log.Expected *= 20
	if c := look(d); c[Count].Likely || !strings.Contains(c[Count].Doubt, "has every failure") {
		t.Errorf("%+v", c)
	}
	// Drives that wear out, taken for a constant rate with as many failures.
	d = drawn(t, stream.New(3, 0), array.WeibullLife{Shape: 4, Scale: 45_000}, narrow, nil)
	d.Log.Stated = array.ConstantRate{AFR: d.Log.Failures / d.Log.DriveDays * 365}
	d.Log.Expected = d.Log.Failures
	if c := look(d); c[Ages].Likely || !strings.Contains(c[Ages].Doubt, "failed older") || !c[Count].Likely {
		t.Errorf("%+v", c)
	}
	// Those that fail young.
	d = drawn(t, stream.New(4, 0), array.WeibullLife{Shape: 0.35, Scale: 900_000}, narrow, nil)
	d.Log.Stated = array.ConstantRate{AFR: d.Log.Failures / d.Log.DriveDays * 365}
	d.Log.Expected = d.Log.Failures
	if c := look(d); c[Ages].Likely || !strings.Contains(c[Ages].Doubt, "failed younger") {
		t.Errorf("%+v", c)
	}
	// Five on one night.
	d = drawn(t, stream.New(5, 0), array.ConstantRate{AFR: 0.05}, narrow, nil)
	f := &d.Log.Fleets[0]
	for i, struck := 0, 0; struck < 5; i++ {
		if o := &f.Drives[i]; !o.Failed && o.Hours > 24*900 {
			o.Hours -= 24 * 300
			f.Ends[i] -= 300
			o.Failed = true
			struck++
		}
	}
	if c := look(d); c[Clusters].Likely || !strings.Contains(c[Clusters].Doubt, "hazards.common_cause") {
		t.Errorf("%+v", c)
	}
}

// A site without a log says nothing.
func TestNoLog(t *testing.T) {
	t.Parallel()
	if r := Look(array.Site{Drives: []array.Drive{{Label: "a"}}}); r.Updates != nil || r.Checks != nil || r.Sentences() != nil {
		t.Errorf("%+v", r)
	}
}
