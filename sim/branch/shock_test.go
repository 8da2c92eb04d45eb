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

// The numbers struck are drawn from a mixture that favours one group. Its weights
// restore the binomial law of each group, gonum's, and of two groups together.
func TestDrawStruck(t *testing.T) {
	t.Parallel()
	b, _, l := struckSystem(51)
	b.survey(l)
	var chances [4][6]simtest.Mean
	var both simtest.Mean // groups 1 and 2 lose one drive each
	for range 200000 {
		w := b.drawStruck(b.rnd.Float64())
		if w > 2+1e-12 {
			t.Fatalf("a weight of %g", w)
		}
		for i, h := range b.hits {
			for k := range chances[i] {
				x := 0.0
				if h.struck == k {
					x = w
				}
				chances[i][k].Add(x)
			}
		}
		x := 0.0
		if b.hits[1].struck == 1 && b.hits[2].struck == 1 {
			x = w
		}
		both.Add(x)
	}
	prob := func(g, k int) float64 { return distuv.Binomial{N: float64(running[g]), P: 0.2}.Prob(float64(k)) }
	for g := range chances {
		for k := 0; k <= min(3, running[g]); k++ {
			chances[g][k].Is(t, "drives struck", prob(g, k))
		}
	}
	both.Is(t, "one in each of two", prob(1, 1)*prob(2, 1))
}

// The drives struck where an event loses a set are drawn on that condition: the
// frequency of every outcome is its binomial chance ÷ the chance of a loss, by
// chi-square.
func TestLossThatIsCaughtByCommonCause(t *testing.T) {
	t.Parallel()
	b, _, l := struckSystem(52)
	b.sampler = NewSampler(nil, b.rnd)
	b.survey(l)
	const draws = 60000
	seen := map[[4]int]float64{}
	for range draws {
		loss := b.shockLoss(1500)
		seen[[4]int(loss.Struck)]++
		if s := loss.Struck[loss.Group]; s <= spare[loss.Group] {
			t.Fatalf("group %d is lost to %d failures", loss.Group, s)
		}
	}
	stands := 1.0
	for g := range running {
		stands *= 1 - over(g)
	}
	sum, cells, rest := 0.0, 0, float64(draws)
	var struck [4]int
	var walk func(g int, p float64, lost bool)
	walk = func(g int, p float64, lost bool) {
		if g == 4 {
			want := 0.0
			if lost {
				want = draws * p / (1 - stands)
			}
			if want > 5 {
				sum += (seen[struck] - want) * (seen[struck] - want) / want
				cells++
				rest -= seen[struck]
			} else if want == 0 && seen[struck] > 0 {
				t.Errorf("a loss with %v drives struck", struck)
			}
			return
		}
		for k := 0; k <= running[g]; k++ {
			struck[g] = k
			walk(g+1, p*distuv.Binomial{N: float64(running[g]), P: 0.2}.Prob(float64(k)), lost || k > spare[g])
		}
	}
	walk(0, 1, false)
	if p := (distuv.ChiSquared{K: float64(cells - 1)}).Survival(sum); p < 1e-4 || rest > 0.01*draws || cells < 50 {
		t.Errorf("chi-square %.1f over %d cells, of chance %.2g; %g of %d outside of them", sum, cells, p, rest, draws)
	}
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
		b.hits[i].struck = n
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
