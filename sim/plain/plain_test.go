package plain

import (
	"math"
	"slices"
	"testing"

	"arrayodds/sim/history"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// The rules of failure and repair are checked here on lives in which drives fail when
// the test says so, and everything that follows is worked out by hand.

// hardly is a rate at which a drive fails once in 100 000 lives of 10 000 h.
const hardly = 1e-9

// groups is sets of one group each, restored by a law.
func groups(sets, drives, tolerance int, restore law.Time) *model.System {
	sys := &model.System{
		Horizon: 10000, Sets: sets, GroupsPerSet: 1, Drives: drives, Tolerance: tolerance,
		Life: law.Constant{PerHour: hardly}, Repair: model.Repair{Restore: restore},
	}
	for range tolerance + 1 {
		sys.Degraded = append(sys.Degraded, 1)
	}
	return sys
}

// scripted simulates a life in which the drives of time zero fail once they have run
// for those hours, by bay.
func scripted(t *testing.T, sys *model.System, failAfter map[int]float64) ([]history.Event, model.Amounts) {
	t.Helper()
	p, sums := New(sys), model.NewSums(sys)
	var rec history.Record
	p.rnd, p.tr, p.rec = stream.New(1, 1), sums.Begin(), &rec
	p.begin()
	for i := range p.drives {
		p.drives[i].budget = math.Inf(1)
	}
	for i, hours := range failAfter {
		p.drives[i].budget = hardly * hours
	}
	p.schedule()
	if !p.toTheEnd() {
		t.Fatal("the life does not come to its end")
	}
	return rec.Events, p.tr.Amounts
}

func amounts(t *testing.T, got model.Amounts, want map[model.Quantity]float64) {
	t.Helper()
	for q, w := range want {
		if math.Abs(got[q]-w) > 1e-6 {
			t.Errorf("%s: %g, by hand %g", q, got[q], w)
		}
	}
}

// Notice 2 h, response 20 h, rebuild 10 h: failures at 1 000 h and 1 005 h are answered
// at 1 022 h and 1 027 h. Rebuilds run one after the other, 1 022 to 1 032 h and 1 032
// to 1 042 h, or both at once, 1 022 to 1 032 h and 1 027 to 1 037 h. Without redundancy
// the group is from the second failure to the first that is restored.
func TestWaitsAndRebuildsByHand(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		parallel    bool
		begun, done float64 // of the second rebuild
	}{{false, 1032, 1042}, {true, 1027, 1037}} {
		sys := groups(1, 5, 2, nil)
		sys.Repair = model.Repair{Notice: law.Fixed(2), Response: model.Wait{Law: law.Fixed(20)}, Rebuild: 10, Parallel: c.parallel}
		events, sums := scripted(t, sys, map[int]float64{3: 1000, 1: 1005})
		want := []history.Event{
			{At: 1000, Kind: history.Fails, Bay: 3},
			{At: 1005, Kind: history.Fails, Bay: 1},
			{At: 1022, Kind: history.Arrives, Bay: 3},
			{At: 1022, Kind: history.Rebuilds, Bay: 3},
			{At: 1027, Kind: history.Arrives, Bay: 1},
			{At: 1032, Kind: history.Restored, Bay: 3},
			{At: c.begun, Kind: history.Rebuilds, Bay: 1},
			{At: c.done, Kind: history.Restored, Bay: 1},
		}
		slices.SortStableFunc(want, func(a, b history.Event) int { return int(a.At - b.At) })
		is(t, events, want)
		amounts(t, sums, map[model.Quantity]float64{model.Failures: 2, model.Rebuilds: 2, model.Unprotected: 1032 - 1005, model.Loss: 0, model.Any: 0})
	}
}

// Two hot spares, back 500 h after they were taken: failures at 0, 100, 200, 499, 501
// and 601 h find one, the other, none, none, one, and one. Who waits when a spare comes
// back goes on waiting.
func TestSparesByHand(t *testing.T) {
	t.Parallel()
	sys := groups(1, 9, 8, nil)
	sys.Spares = 2
	sys.Repair = model.Repair{Notice: law.Fixed(1), Response: model.Wait{Law: law.Fixed(3000)}, Restock: model.Wait{Law: law.Fixed(500)}, Rebuild: 30, Parallel: true}
	events, _ := scripted(t, sys, map[int]float64{0: 1e-6, 1: 100, 2: 200, 3: 499, 4: 501, 5: 601})
	var taken, arrived []float64
	for _, e := range events {
		switch e.Kind {
		case history.TakesSpare:
			taken = append(taken, math.Round(e.At))
		case history.Arrives:
			arrived = append(arrived, math.Round(e.At))
		}
	}
	if !slices.Equal(taken, []float64{0, 100, 501, 601}) || !slices.Equal(arrived, []float64{3201, 3500}) {
		t.Errorf("spares are taken at %v, drives arrive at %v", taken, arrived)
	}
}

// While a drive is down the others run through their hazard three times as fast: one
// that would fail after 400 h, 300 h of them from the first failure on, does so after
// another 100 h.
func TestDegradedMultiplierByHand(t *testing.T) {
	t.Parallel()
	sys := groups(1, 4, 2, law.Fixed(1000))
	sys.Degraded = []float64{1, 3, 9}
	events, _ := scripted(t, sys, map[int]float64{0: 100, 2: 400})
	if e := events[2]; e.Kind != history.Fails || e.Bay != 2 || math.Abs(e.At-200) > 1e-6 {
		t.Errorf("%+v, by hand bay 2 fails at 200 h", e)
	}
}

// Failures at 100 h and 150 h lose a set with single parity, which starts again after
// the 80 h that restoring takes. In between nothing of it fails: a drive with 30 h left
// at the loss fails 30 h after the start. The other set goes on all the while.
func TestALossByHand(t *testing.T) {
	t.Parallel()
	sys := groups(2, 3, 1, law.Fixed(80))
	events, sums := scripted(t, sys, map[int]float64{0: 100, 1: 150, 2: 180, 4: 170})
	is(t, events, []history.Event{
		{At: 100, Kind: history.Fails},
		{At: 100, Kind: history.Rebuilds},
		{At: 150, Kind: history.Fails},
		{At: 150, Kind: history.LosesSet},
		{At: 170, Kind: history.Fails, Group: 1},
		{At: 170, Kind: history.Rebuilds, Group: 1},
		{At: 230, Kind: history.StartsAgain},
		{At: 250, Kind: history.Restored, Group: 1},
		{At: 260, Kind: history.Fails},
		{At: 260, Kind: history.Rebuilds},
		{At: 340, Kind: history.Restored},
	})
	amounts(t, sums, map[model.Quantity]float64{
		model.Loss: 1, model.Any: 1, model.LossEvents: 1, model.Incidents: 1, model.Failures: 4, model.Rebuilds: 2,
		model.Unprotected: (150 - 100) + (250 - 170) + (340 - 260),
	})
}

// meanIs fails where the mean of draws is not what it should be within 4 standard
// errors.
func meanIs(t *testing.T, what string, x []float64, want float64) {
	t.Helper()
	mean, sd := stat.MeanStdDev(x, nil)
	if se := stat.StdErr(sd, float64(len(x))); math.Abs(mean-want) > 4*se || se > 0.05*want {
		t.Errorf("%s: %.5g ± %.2g, should be %.5g", what, mean, se, want)
	}
}

func squares(x []float64) []float64 {
	y := slices.Clone(x)
	for i := range y {
		y[i] *= x[i]
	}
	return y
}

// Defects on a drive are an M/G/∞ queue that begins empty: a Poisson number of mean
// rate × E[min(dwell, time)] (Eick, Massey, Whitt, "The physics of the Mt/G/∞ queue",
// Operations Research 41(4), 1993; from memory). Of an exponential dwell of mean d that
// is d·(1 − exp(−t/d)).
func TestDefectsPresent(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		scrub law.Time
		mean  float64
	}{{nil, 0.01 * 400}, {law.Fixed(150), 0.01 * 150}, {law.Exponential(300), 0.01 * 300 * -math.Expm1(-400.0/300)}} {
		sys := groups(1, 2, 1, law.Fixed(10))
		sys.LatentRate, sys.Scrub = 0.01, c.scrub
		p := New(sys)
		p.rnd = stream.New(2, 2)
		var present []float64
		for range 20000 {
			present = append(present, float64(p.defects(400)))
		}
		meanIs(t, "defects", present, c.mean)
		meanIs(t, "their squares", squares(present), c.mean+c.mean*c.mean)
	}
}

// A rebuild without redundancy meets a Poisson number of unreadable sectors, with the
// mean that one whole rebuild has.
func TestReadErrors(t *testing.T) {
	t.Parallel()
	sys := groups(1, 3, 1, law.Fixed(100))
	sys.ReadErrors = 0.7
	p, sums := New(sys), model.NewSums(sys)
	var met []float64
	for k := range uint64(10000) {
		p.rnd, p.tr = stream.New(3, k), sums.Begin()
		p.begin()
		for i := range p.drives {
			p.drives[i].budget = math.Inf(1)
		}
		p.drives[0].budget = hardly * 1000
		p.schedule()
		p.toTheEnd()
		met = append(met, p.tr.Amounts[model.Stripes])
	}
	meanIs(t, "sectors", met, 0.7)
	meanIs(t, "their squares", squares(met), 0.7+0.49)
}

// Of seven running drives an event strikes a binomial number.
func TestCommonCauseStrikes(t *testing.T) {
	t.Parallel()
	sys := groups(1, 8, 8, law.Fixed(100))
	sys.Degraded = append(sys.Degraded, 1)
	sys.ShockRate, sys.ShockChance = 1e-9, 0.3
	p, sums := New(sys), model.NewSums(sys)
	gonum := distuv.Binomial{N: 7, P: 0.3}
	var struck []float64
	for k := range uint64(20000) {
		p.rnd, p.tr = stream.New(4, k), sums.Begin()
		p.begin()
		p.breakDown(5)
		p.commonCause()
		struck = append(struck, float64(p.groups[0].down-1))
	}
	meanIs(t, "drives struck", struck, gonum.Mean())
	meanIs(t, "their squares", squares(struck), gonum.Variance()+gonum.Mean()*gonum.Mean())
}

// The first of n drives, Weibull of scale η, fails by a Weibull law of scale
// η ÷ n^(1/β): the one-sample test of Kolmogorov (its first term, an upper bound) at
// 10^-4.
func TestFirstFailure(t *testing.T) {
	t.Parallel()
	sys := groups(2, 4, 1, law.Fixed(100))
	sys.Life, sys.Horizon = law.Weibull{Shape: 1.7, Scale: 50000}, 1e6
	p, sums := New(sys), model.NewSums(sys)
	var times []float64
	for k := range uint64(20000) {
		p.rnd, p.tr = stream.New(5, k), sums.Begin()
		p.begin()
		_, first := p.queue.first()
		times = append(times, first)
	}
	slices.Sort(times)
	gonum := distuv.Weibull{K: 1.7, Lambda: 50000 * math.Pow(8, -1/1.7)}
	d, n := 0.0, float64(len(times))
	for i, x := range times {
		f := gonum.CDF(x)
		d = max(d, f-float64(i)/n, float64(i+1)/n-f)
	}
	if chance := 2 * math.Exp(-2*d*d*n); chance < 1e-4 {
		t.Errorf("%.3f from the law, of chance %.2g", d, chance)
	}
}

// A batch's frailty has mean 1 and the variance given; a record's rate is a Gamma.
func TestMultipliers(t *testing.T) {
	t.Parallel()
	sys := groups(1, 2, 1, law.Fixed(100))
	sys.Frailty, sys.Uncertain = 0.6, 3.5
	p, sums := New(sys), model.NewSums(sys)
	var batch, rate []float64
	for k := range uint64(20000) {
		p.rnd, p.tr = stream.New(6, k), sums.Begin()
		p.begin()
		batch, rate = append(batch, p.drives[0].batch), append(rate, p.rate)
		if p.drives[1].batch != p.drives[0].batch {
			t.Fatal("two drives of one batch differ")
		}
	}
	meanIs(t, "frailty", batch, 1)
	meanIs(t, "its square", squares(batch), 1+0.6)
	meanIs(t, "rate", rate, 3.5)
	meanIs(t, "its square", squares(rate), 3.5+3.5*3.5)
}
