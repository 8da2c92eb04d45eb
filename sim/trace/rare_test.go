package trace

import (
	"math"
	"slices"
	"testing"

	"arrayodds/sim/engine"
	"arrayodds/sim/history"
	"arrayodds/sim/law"
	"arrayodds/sim/simtest"

	"gonum.org/v1/gonum/stat/distuv"
)

// Where losses are rare the law of a life on condition of its first loss is
// known to the first order of repair ÷ life: one outage is fatal and nothing
// else tells it from others. With failures at a constant rate λ while k drives
// are down, and a repair law f, one at a time:
//
//   - the loss falls anywhere in the life with the same density;
//   - tolerance 1: the fatal outage, had it not been cut short, has the density
//     x f(x) ÷ E[x], and the loss lies uniformly in it;
//   - tolerance t, exponential repair: at each level the next failure has to come
//     before the repair ends, so the outage up to the loss is a sum of t
//     exponentials, a Gamma(t);
//   - tolerance 2, fixed repair of length c: the second failure and the third
//     are the two order statistics of uniform times in the first repair, so the
//     loss comes after c·√u;
//   - what multiplies all hazards has its density times the (t + 1)st power: a
//     Gamma(a) becomes a Gamma(a + t + 1).

// follows fails where draws worth n independent ones do not follow a law, by the
// one-sample test of Kolmogorov (its first term, an upper bound) at 10^-4. There
// are 16 such tests in this file: a false alarm in 1 of 600.
func follows(t *testing.T, what string, x []float64, n float64, cdf func(float64) float64) {
	t.Helper()
	slices.Sort(x)
	d := 0.0
	for i, v := range x {
		f := cdf(v)
		d = max(d, f-float64(i)/float64(len(x)), float64(i+1)/float64(len(x))-f)
	}
	if chance := 2 * math.Exp(-2*d*d*n); chance < 1e-4 {
		t.Errorf("%s: %.3f from the law, of chance %.2g; the middle is at %.5g", what, d, chance, x[len(x)/2])
	}
}

// fatalOutage is, for a record of one group, the first loss, the failure that
// the outage before it began with, and the length of the first repair in it.
func fatalOutage(r *history.Record) (loss, began, repair float64) {
	down := 0
	for _, e := range r.Events[:firstLoss(r)] {
		switch e.Kind {
		case history.Fails:
			if down++; down == 1 {
				began, repair = e.At, 0
			}
		case history.Rebuilds:
			if repair == 0 {
				repair = e.Until - e.At
			}
		case history.Restored:
			down--
		}
	}
	return r.Events[firstLoss(r)].At, began, repair
}

const rareLives = 2000

func TestRareLossesAtToleranceOne(t *testing.T) {
	for i, c := range []struct {
		name   string
		repair law.Time
		biased func(float64) float64 // distribution of x f(x) ÷ E[x]
	}{
		{"exponential", law.Exponential(48), distuv.Gamma{Alpha: 2, Beta: 1.0 / 48}.CDF},
		{"lognormal", simtest.HeavyTailed, distuv.LogNormal{Mu: simtest.HeavyTailed.Mu + simtest.HeavyTailed.Sigma*simtest.HeavyTailed.Sigma, Sigma: simtest.HeavyTailed.Sigma}.CDF},
		{"fixed", law.Fixed(48), nil},
	} {
		sys := simtest.OneGroup(8, 1, simtest.HalfMillionHours, c.repair, 43800)
		l := branchLosers(t, sys, uint64(500+i), rareLives, engine.Options{MaxTrials: 1000000})
		var times, lengths, places []float64
		for k := range l.records {
			loss, began, repair := fatalOutage(&l.records[k])
			times = append(times, loss/sys.Horizon)
			lengths = append(lengths, repair)
			places = append(places, (loss-began)/repair)
		}
		follows(t, c.name+": time of the loss", times, l.worth, uniform)
		follows(t, c.name+": place in the outage", places, l.worth, uniform)
		if c.biased != nil {
			follows(t, c.name+": length of the outage", lengths, l.worth, c.biased)
		}
	}
}

func uniform(x float64) float64 { return min(1, max(0, x)) }

func TestRareLossesAtHigherTolerance(t *testing.T) {
	for i, c := range []struct {
		name      string
		tolerance int
		repair    law.Time
		cdf       func(float64) float64 // of the outage's length up to the loss
	}{
		{"tolerance 2, exponential", 2, law.Exponential(48), distuv.Gamma{Alpha: 2, Beta: 1.0 / 48}.CDF},
		{"tolerance 3, exponential", 3, law.Exponential(48), distuv.Gamma{Alpha: 3, Beta: 1.0 / 48}.CDF},
		{"tolerance 2, fixed", 2, law.Fixed(48), func(x float64) float64 { return uniform(x / 48 * x / 48) }},
	} {
		sys := simtest.OneGroup(8, c.tolerance, simtest.HalfMillionHours, c.repair, 43800)
		l := branchLosers(t, sys, uint64(520+i), rareLives, engine.Options{MaxTrials: 1000000})
		var times, lengths []float64
		for k := range l.records {
			loss, began, _ := fatalOutage(&l.records[k])
			times = append(times, loss/sys.Horizon)
			lengths = append(lengths, loss-began)
		}
		follows(t, c.name+": time of the loss", times, l.worth, uniform)
		follows(t, c.name+": outage up to the loss", lengths, l.worth, c.cdf)
	}
}

func TestRareLossesTellOfTheMultipliers(t *testing.T) {
	sys := simtest.OneGroup(8, 1, law.Constant{PerHour: 1e-7}, law.Exponential(48), 43800)
	sys.Uncertain = 3.5
	l := branchLosers(t, sys, 540, rareLives, engine.Options{MaxTrials: 1000000})
	var rates []float64
	for i := range l.records {
		rates = append(rates, l.records[i].Rate)
	}
	follows(t, "rate", rates, l.worth, distuv.Gamma{Alpha: 5.5, Beta: 1}.CDF)

	sys = simtest.OneGroup(8, 2, law.Constant{PerHour: 1e-7}, law.Exponential(48), 43800)
	sys.Frailty = 0.5
	l = branchLosers(t, sys, 541, rareLives, engine.Options{MaxTrials: 1000000})
	var batches []float64
	for i := range l.records {
		batches = append(batches, l.records[i].Batch)
	}
	follows(t, "batch", batches, l.worth, distuv.Gamma{Alpha: 5, Beta: 2}.CDF)
}

// Drives that fail by common cause alone, eight in two groups of four: a loss is
// three or more of a group in one event, and with events this rare the number
// struck is binomial on that condition.
func TestRareLossesByCommonCause(t *testing.T) {
	sys := simtest.OneGroup(4, 2, law.Constant{PerHour: 1e-15}, law.Exponential(48), 43800)
	sys.Sets, sys.ShockRate, sys.ShockChance = 2, 1e-9, 0.3
	l := branchLosers(t, sys, 560, rareLives, engine.Options{MaxTrials: 1000000})
	var seen [5][5]float64 // by the drives struck in the one and the other group
	for k := range l.records {
		r := &l.records[k]
		var struck [2]int
		for _, e := range r.Events {
			if e.Kind == history.Fails && e.At == r.Events[firstLoss(r)].At {
				struck[e.Group]++
			}
		}
		seen[struck[0]][struck[1]] += l.worth / float64(len(l.records))
	}
	binomial := distuv.Binomial{N: 4, P: 0.3}
	lose := 1 - math.Pow(binomial.CDF(2), 2)
	sum, cells := 0.0, 0
	for i := range seen {
		for j := range seen[i] {
			want := 0.0
			if i > 2 || j > 2 {
				want = l.worth * binomial.Prob(float64(i)) * binomial.Prob(float64(j)) / lose
			}
			if want == 0 && seen[i][j] > 0 {
				t.Errorf("a loss with %d and %d drives struck", i, j)
			}
			if want > 5 {
				sum += (seen[i][j] - want) * (seen[i][j] - want) / want
				cells++
			}
		}
	}
	if p := (distuv.ChiSquared{K: float64(cells - 1)}).Survival(sum); p < 1e-4 {
		t.Errorf("drives struck: chi-square %.1f over %d cells, of chance %.2g", sum, cells, p)
	}
}
