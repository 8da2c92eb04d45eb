package branch

import (
	"math"
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"

	"gonum.org/v1/gonum/stat/distuv"
)

// struckSystem is four groups of five drives with double parity in two sets, at an
// event that strikes each drive with chance 0.2. The first group has two drives down,
// the second one.
func struckSystem(seed uint64) (b *Simulator, sums *model.Sums, l *line) {
	sys := systemOf(2, 5, 2, law.Constant{PerHour: 1e-6}, law.Fixed(100))
	sys.GroupsPerSet = 2
	sys.ShockRate, sys.ShockChance = 1e-6, 0.2
	b, sums = following(sys, seed)
	l = lineAt(b, 1000)
	fail(b, l, 0, 5000)
	fail(b, l, 0, 5000)
	fail(b, l, 1, 5000)
	return b, sums, l
}

// running and spare are, by group of struckSystem, the drives that run and the
// failures that it still stands; over is the chance of more than that, by gonum.
var running, spare = []int{3, 4, 5, 5}, []int{0, 1, 2, 2}

func over(g int) float64 {
	return 1 - distuv.Binomial{N: float64(running[g]), P: 0.2}.CDF(float64(spare[g]))
}

// The losses that an event brings are counted by their exact chances: a set is lost
// where one of its groups at least is struck by more than it stands.
func TestLossesByCommonCause(t *testing.T) {
	t.Parallel()
	b, sums, l := struckSystem(50)
	b.tr = sums.Begin()
	b.survey(l)
	b.tallyShock(l, 1500, 0.4, 0.3)
	first := 1 - (1-over(0))*(1-over(1))
	second := 1 - (1-over(2))*(1-over(3))
	any := 1 - (1-first)*(1-second)
	near(t, "first losses", b.tr.Amounts[model.Loss], 0.4*any, 1e-12)
	near(t, "first incidents", b.tr.Amounts[model.Any], 0.3*any, 1e-12)
	near(t, "losses", b.tr.Amounts[model.LossEvents], 0.4*(first+second), 1e-12)
}

// What an event does to a branch, by hand: two drives of the second group's set and one
// of the other's are struck; the first set is lost by the first group and starts again
// after 100 h, the other goes on with a drive down.
func TestApplyShock(t *testing.T) {
	t.Parallel()
	b, sums, l := struckSystem(53)
	b.tr = sums.Begin()
	b.survey(l)
	for i, n := range []int{1, 1, 0, 1} {
		b.hits[i].Struck = n
	}
	l.w = 0.25
	nominal := 1.0
	if !b.applyShock(l, &nominal) {
		t.Error("nothing is down, and a drive was struck")
	}
	if !l.sets[0].down || l.sets[0].until != 1100 || l.sets[1].down || l.failures != 1+3 {
		t.Errorf("%+v, %d failures", l.sets, l.failures)
	}
	near(t, "failures", b.tr.Amounts[model.Failures], 3*0.25, 1e-12)
	if g := l.groups[3]; g.level != 1 || g.running != 4 || len(l.ratios) != 1 || math.Abs(l.ratios[0].share-0.25) > 1e-12 || !l.ratios[0].shock {
		t.Errorf("%+v, %+v", g, l.ratios)
	}
	b.followShock(l, 0)
	if len(l.down) != 1 || l.down[0].group != 3 || l.down[0].at != 1100 {
		t.Errorf("%+v", l.down)
	}
}

// A running drive is taken out with the same chance for each.
func TestRemoveAny(t *testing.T) {
	t.Parallel()
	sys := systemOf(2, 4, 2, law.Weibull{Shape: 2, Scale: 1e5}, law.Fixed(100))
	b, _ := following(sys, 54)
	var original simtest.Mean
	for range 40000 {
		l := lineAt(b, 1000)
		for range 3 {
			l.removeDrive(b, 1, none)
			l.addDrive(b, 1)
		}
		b.removeAny(l, 1)
		x := 0.0
		if l.groups[1].original == 0 {
			x = 1
		}
		original.Add(x)
		if l.groups[1].running != 3 {
			t.Fatalf("%+v", l.groups[1])
		}
		b.release(l)
	}
	original.Is(t, "the one original of four", 0.25)
}
