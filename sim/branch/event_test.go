package branch

import (
	"math"
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// Defects present are Poisson, so with an expected number of m on the drives that
// run one at least is met with chance 1 − exp(−m) when a group comes to its
// tolerance. With a fixed scrub of 168 h and one defect in 5 000 h, a drive has
// min(168, hours since it was cleared) ÷ 5 000.
func TestDefectsAreMet(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ now, expected float64 }{{100, 3 * 100.0 / 5000}, {4000, 3 * 168.0 / 5000}} {
		sys := systemOf(1, 4, 1, law.Constant{PerHour: 1e-12}, law.Fixed(10))
		sys.LatentRate, sys.Scrub = 1.0/5000, law.Fixed(168)
		met := -math.Expm1(-c.expected)

		b, sums := following(sys, 40)
		l := lineAt(b, c.now)
		fail(b, l, 0, c.now+10)
		b.tr = sums.Begin()
		b.reach(l, 0)
		near(t, "first incident under skip", b.tr.Amounts[model.Any], met, 1e-12)
		near(t, "incidents", b.tr.Amounts[model.Incidents], met, 1e-12)
		near(t, "stripes", b.tr.Amounts[model.Stripes], c.expected, 1e-12)
		near(t, "lines without an incident", l.clean, 1-met, 1e-12)
		if b.tr.Amounts[model.Loss] != 0 || l.w != 1 {
			t.Errorf("under skip a group is lost: %v", b.tr.Amounts)
		}

		sys.Stop = true
		b, sums = following(sys, 41)
		var beyond simtest.Mean
		for range 2000 {
			l = lineAt(b, c.now)
			fail(b, l, 0, c.now+10)
			b.tr = sums.Begin()
			follows := 0.0
			if c := b.reach(l, 0); c != nil {
				follows = c.w
				if !c.sets[0].down || !c.lost || len(c.down) != 0 {
					t.Fatalf("a lost set is not down: %+v", c)
				}
			}
			beyond.Add(follows)
			near(t, "loss under stop", b.tr.Amounts[model.Loss], met, 1e-12)
			near(t, "first incident", b.tr.Amounts[model.Any], met, 1e-12)
			near(t, "what goes on", l.w, 1-met, 1e-12)
			near(t, "of what came to this level", l.decay, 1-met, 1e-12)
			if b.tr.Amounts[model.Stripes] != 0 || b.tr.Amounts[model.LossEvents] != b.tr.Amounts[model.Loss] {
				t.Errorf("under stop: %v", b.tr.Amounts)
			}
			weights(b)
		}
		beyond.IsLoosely(t, "lives followed beyond the loss", met)
	}
}

// Roulette takes no weight and adds none, on average.
func TestRouletteKeepsWeight(t *testing.T) {
	t.Parallel()
	b, _ := following(systemOf(1, 4, 1, law.Constant{PerHour: 1e-6}, law.Fixed(10)), 42)
	for _, c := range []struct{ w, nominal float64 }{{0.03, 1}, {2e-9, 3e-9}, {5, 1}} {
		var kept simtest.Mean
		for range 40000 {
			l := &line{w: c.w}
			if b.roulette(l, c.nominal) {
				kept.Add(l.w)
				near(t, "decay", l.decay, l.w/c.nominal, 1e-12)
			} else {
				kept.Add(0)
			}
		}
		kept.Is(t, "weight", c.w)
	}
}

// A branch that is back at the level it left is held against the weight there: a
// tenth of the line's goes on in one of ten cases, with all of it.
func TestABranchThatComesBack(t *testing.T) {
	t.Parallel()
	sys := systemOf(1, 5, 2, law.Constant{PerHour: 1e-6}, law.Fixed(10))
	b, _ := following(sys, 43)
	var back simtest.Mean
	for range 40000 {
		l := lineAt(b, 100)
		fail(b, l, 0, 500)
		fail(b, l, 0, 200)
		l.becomeBranch(0.1)
		l.ratios = append(l.ratios, ratio{group: 0, level: 1, share: 0.1, lot: b.rnd.Float64()})
		b.push(l)
		l.now = 200
		w := 0.0
		if b.restored(l, 1) {
			w = l.w
			if l.w != 1 || len(l.ratios) != 0 || l.groups[0].level != 1 {
				t.Fatalf("%+v goes on", l)
			}
			b.end(l)
		}
		back.Add(w)
	}
	back.Is(t, "weight", 0.1)
}

// By hand: of three sets the second is lost at 1 000 h with two drives down and starts
// again at 1 300 h. Its failed drives are new then, the others as old as they are.
func TestASetStartsAgain(t *testing.T) {
	t.Parallel()
	sys := systemOf(3, 4, 1, law.Weibull{Shape: 2, Scale: 1e9}, law.Fixed(10))
	b, _ := following(sys, 44)
	l := lineAt(b, 900)
	fail(b, l, 1, 910)
	fail(b, l, 2, 2000)
	l.now = 1000
	l.removeDrive(b, 1, none)
	b.takeDown(l, 1, 1300)
	if l.calm != 4 || l.downSets != 1 || len(l.down) != 1 || l.down[0].group != 2 || !l.lost || l.clean != 0 {
		t.Errorf("after the loss: %+v", l)
	}
	if at, what := l.nextScheduled(sys.Horizon, false); at != 1300 || what != -2-1 {
		t.Errorf("next comes %d at %g h, should be the second set at 1 300 h", what, at)
	}
	l.now = 1300
	b.restart(l, 1)
	if l.calm != 4+2 || l.downSets != 0 || l.sets[1].down || l.sets[1].since != 1300 || l.groups[1].running != 4 || l.groups[1].cleared != 1300 {
		t.Errorf("started again: %+v, %+v", l, l.groups[1])
	}
	if len(l.young) != 2 || l.young[0] != (youngDrive{group: 1, install: 1300, batch: 1, bound: b.life.MaxRate(0, sys.Horizon-1300)}) {
		t.Errorf("its new drives are %+v", l.young)
	}
}

// Where nothing is tolerated the failure of a drive loses its set, and the line goes on
// with it: nothing is drawn but the restart.
func TestALossWithoutRedundancy(t *testing.T) {
	t.Parallel()
	sys := systemOf(3, 1, 0, law.Constant{PerHour: 1e-6}, law.Fixed(48))
	b, sums := following(sys, 45)
	b.tr = sums.Begin()
	l := lineAt(b, 5000)
	l.w = 0.7
	b.strike(l, 1, none)
	for _, q := range []model.Quantity{model.Loss, model.Any, model.LossEvents, model.Incidents, model.Failures} {
		near(t, q.String(), b.tr.Amounts[q], 0.7, 1e-12)
	}
	if !l.sets[1].down || l.sets[1].until != 5048 || l.w != 0.7 {
		t.Errorf("%+v", l)
	}
	// The second loss of the life is no first one.
	b.strike(l, 0, none)
	near(t, "first losses", b.tr.Amounts[model.Loss], 0.7, 1e-12)
	near(t, "losses", b.tr.Amounts[model.LossEvents], 1.4, 1e-12)
}
