package trace

import (
	"cmp"
	"context"
	"math"
	"slices"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"
	"arrayodds/sim/engine"
	"arrayodds/sim/history"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/plain"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Lives with a loss that are drawn from forced branching, beside those that the
// plain simulation comes upon: on the made-up sites of simtest, where
// losses are common enough for it.

// losers are records of lives with a loss, as good as so many independent ones.
type losers struct {
	records []history.Record
	worth   float64
}

func firstLoss(r *history.Record) int {
	return slices.IndexFunc(r.Events, func(e history.Event) bool { return e.Kind == history.LosesSet })
}

// plainLosers looks for so many of them, in so many lives at the most.
func plainLosers(t *testing.T, sys *model.System, seed uint64, want, lives int) (l losers) {
	p, sums := plain.New(sys), model.NewSums(sys)
	for k := 0; k < lives && len(l.records) < want; k++ {
		var r history.Record
		if !p.Trace(stream.New(seed, uint64(k)), sums.Begin(), &r) {
			t.Fatal("a life did not end")
		}
		if firstLoss(&r) >= 0 {
			l.records = append(l.records, r)
		}
	}
	l.worth = float64(len(l.records))
	return l
}

// branchLosers draws them.
func branchLosers(t *testing.T, sys *model.System, seed uint64, want int, opt engine.Options) (l losers) {
	t.Helper()
	opt.Seed, opt.Accuracy = seed, 1
	w, err := weigh(context.Background(), sys, want/10, opt) // worth twice as many
	if err != nil {
		t.Fatal(err)
	}
	histories, err := w.draw(context.Background(), want)
	if err != nil || len(histories) != want {
		t.Fatalf("%d histories, %v", len(histories), err)
	}
	p, sums := plain.New(sys), model.NewSums(sys)
	for k := range histories {
		var r history.Record
		if !p.Follow(&histories[k], stream.New(seed, 1<<50+uint64(k)), sums.Begin(), &r) {
			t.Fatal("a life did not end")
		}
		if firstLoss(&r) < 0 {
			t.Fatal("a life without a loss")
		}
		l.records = append(l.records, r)
	}
	// Draws from a weighted sample vary as draws from the law and, on top, as the
	// sample does, whose worth is Kish's effective number.
	l.worth = 1 / (1/float64(want) + 1/w.total.EffectiveSamples())
	return l
}

func (l losers) values(sys *model.System, f feature) (x []float64) {
	for i := range l.records {
		r := &l.records[i]
		if v := f.of(sys, r, firstLoss(r)); !math.IsNaN(v) {
			x = append(x, v)
		}
	}
	slices.Sort(x)
	return x
}

// likely is the chance of samples of one law to lie further apart than these.
// worthX and worthY are independent draws for each that is given.
func likely(f feature, x, y []float64, worthX, worthY float64) float64 {
	n, m := worthX*float64(len(x)), worthY*float64(len(y))
	if n < 20 || m < 20 {
		return 1
	}
	if f.count {
		return chiSquare(x, y, n, m)
	}
	// The first term of the limit law, which is an upper bound of it: Smirnov,
	// "Table for estimating the goodness of fit of empirical distributions",
	// Annals of Mathematical Statistics 19 (1948). Ties only make D smaller.
	d := stat.KolmogorovSmirnov(x, nil, y, nil)
	return min(1, 2*math.Exp(-2*d*d*n*m/(n+m)))
}

// alikeShares returns the chance that the shares of lives with a feature, k of n
// and j of m, lie further apart if both are of one law, by the normal limit.
func alikeShares(k, n int, worthN float64, j, m int, worthM float64) float64 {
	p, q := float64(k)/float64(n), float64(j)/float64(m)
	both := (p*worthN + q*worthM) / (worthN + worthM)
	if both == 0 || both == 1 {
		return 1
	}
	z := (p - q) / math.Sqrt(both*(1-both)*(1/worthN+1/worthM))
	return 2 * distuv.UnitNormal.Survival(math.Abs(z))
}

// chiSquare compares counts: Σ (p − q)² ÷ (mean share · (1/n + 1/m)) over cells
// of which the smaller sample expects ten, neighbours put together.
func chiSquare(x, y []float64, n, m float64) float64 {
	type cell struct{ value, p, q float64 }
	var cells []cell
	add := func(sample []float64, of func(*cell) *float64) {
		for _, v := range sample {
			i, found := slices.BinarySearchFunc(cells, v, func(c cell, v float64) int { return cmp.Compare(c.value, v) })
			if !found {
				cells = slices.Insert(cells, i, cell{value: v})
			}
			*of(&cells[i]) += 1 / float64(len(sample))
		}
	}
	add(x, func(c *cell) *float64 { return &c.p })
	add(y, func(c *cell) *float64 { return &c.q })
	share := func(c cell) float64 { return (n*c.p + m*c.q) / (n + m) }
	var pooled []cell
	for _, c := range cells {
		if k := len(pooled) - 1; k >= 0 && share(pooled[k])*min(n, m) < 10 {
			pooled[k].p += c.p
			pooled[k].q += c.q
			continue
		}
		pooled = append(pooled, c)
	}
	if k := len(pooled) - 1; k > 0 && share(pooled[k])*min(n, m) < 10 {
		pooled[k-1].p += pooled[k].p
		pooled[k-1].q += pooled[k].q
		pooled = pooled[:k]
	}
	if len(pooled) < 2 {
		return 1
	}
	sum := 0.0
	for _, c := range pooled {
		sum += (c.p - c.q) * (c.p - c.q) / (share(c) * (1/n + 1/m))
	}
	return distuv.ChiSquared{K: float64(len(pooled) - 1)}.Survival(sum)
}

// several reach what none of simtest.Sites does.
var several = []simtest.Variation{
	{Name: "spares shared by three sets, wear, frailty", Make: func(s *array.Site, c *array.Choice) {
		c.Layout = array.Layout{Level: array.RAID5}
		c.Drives, c.Groups, c.HotSpares = 12, 3, 2
		c.Drive.Life = array.WeibullLife{Shape: 1.5, Scale: 9000}
		c.Drive.BatchVariance = 0.5
		c.Care.Restock = array.Exponential{Mean: 600}
		c.Care.Response = array.Exponential{Mean: 400}
		c.Drive.ReadErrorBits = 1e16
		c.Care.Stop = true
	}},
	// Without chance in the waits there are no twins, and one line has several
	// groups at their tolerance.
	{Name: "three sets, waits without chance", Make: func(s *array.Site, c *array.Choice) {
		s.Hazards.DegradedMultiplier = 2
		c.Layout = array.Layout{Level: array.RAID5}
		c.Drives, c.Groups = 12, 3
		c.Drive.Life = array.WeibullLife{Shape: 1.5, Scale: 20000}
		c.Care.Response = array.Fixed{Hours: 800}
	}},
}

// A thousandth is the chance of a false alarm, over all comparisons together
// (Bonferroni): 20 sites with up to 23 features, of which the shares of lives that
// have them are compared and their values. With -calibrate it is twice the lives, without
// make thorough every twelfth site.
func TestLivesWithALossAgreeWithPlain(t *testing.T) {
	sites := slices.Concat(simtest.Sites, several)
	alarm := 1e-3 / float64(2*len(sites)*len(features))
	for i, c := range sites {
		if !thorough.Part(i, 12) {
			continue
		}
		t.Run(c.Name, func(t *testing.T) {
			t.Parallel()
			site, choice := simtest.OftenFailing()
			c.Make(&site, &choice)
			sys, err := model.New(site, choice)
			if err != nil {
				t.Fatal(err)
			}
			want, opt := 500, engine.Options{MaxTrials: 20000}
			if _, constant := sys.Life.(law.Constant); !constant { // slower
				want = 250
			}
			if sys.Fitted != nil || sys.Frailty > 0 { // and slower
				want = 150
			}
			if sys.Uncertain > 0 { // its drives fail by the dozen, which is slower still
				want, opt.MaxTrials = 100, 500
			}
			if *thorough.Calibrate {
				want, opt.MaxTrials = 2*want, 2*opt.MaxTrials
			}
			// Plain lives cost less than those that are drawn.
			p := plainLosers(t, sys, uint64(300+i), want*4/3, 80000)
			b := branchLosers(t, sys, uint64(400+i), want, opt)
			compared, least := 0, 1.0
			for _, f := range features {
				x, y := p.values(sys, f), b.values(sys, f)
				if alikeShares(len(x), len(p.records), p.worth, len(y), len(b.records), b.worth) < alarm {
					t.Errorf("%s: known of %d plain lives of %d, of %d drawn ones of %d", f.name, len(x), len(p.records), len(y), len(b.records))
				}
				if len(x) == 0 || len(y) == 0 {
					continue
				}
				compared++
				chance := likely(f, x, y, 1, b.worth/float64(want))
				least = min(least, chance)
				if chance < alarm {
					t.Errorf("%s: chance %.2g; plain mean %.5g, middle %.5g; drawn mean %.5g, middle %.5g", f.name, chance,
						stat.Mean(x, nil), x[len(x)/2], stat.Mean(y, nil), y[len(y)/2])
				}
			}
			t.Logf("%d plain lives, %d drawn ones worth %.0f, %d comparisons, least chance %.2g", len(p.records), want, b.worth, compared, least)
		})
	}
}
