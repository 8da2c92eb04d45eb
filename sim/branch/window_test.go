package branch

import (
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"

	"gonum.org/v1/gonum/integrate/quad"
)

// windows follows copies of a line through one window each, and returns the means of
// what is left of their weight, of the weight that branched off, by the group that
// fails first in the branch (none for common cause), and of what was counted.
func windows(b *Simulator, sums *model.Sums, from func() *line, dt float64, n int) (left simtest.Mean, branches map[int]*simtest.Mean, counted [model.MissingChance + 1]simtest.Mean) {
	groups := []int{none}
	for g := range b.sys.Groups() {
		groups = append(groups, g)
	}
	branches = map[int]*simtest.Mean{}
	for _, g := range groups {
		branches[g] = new(simtest.Mean)
	}
	for range n {
		b.tr = sums.Begin()
		l := from()
		b.ahead(l, dt, false)
		left.Add(l.w)
		byGroup := map[int]float64{}
		for _, c := range b.stack {
			if !c.lost { // else it is what comes after a loss, which is counted
				byGroup[c.strikes] += c.w
			}
		}
		b.idle = append(b.idle, b.stack...)
		b.stack = b.stack[:0]
		b.release(l)
		for _, g := range groups {
			branches[g].Add(byGroup[g])
		}
		for q := range counted {
			counted[q].Add(b.tr.Amounts[q])
		}
	}
	return left, branches, counted
}

// Sources of constant rates compete: with the rates a, b and s of a loss, a fork and
// common cause, all three together r, the window of length t ends by each with the
// chance of its share of r times 1 − exp(−r·t), and by none with exp(−r·t).
func TestWindowOfCompetingSources(t *testing.T) {
	t.Parallel()
	const rate, dt = 2e-4, 900.0
	sys := systemOf(3, 5, 2, law.Constant{PerHour: rate}, law.Fixed(2000))
	sys.Degraded = []float64{1, 1.5, 2}
	for _, events := range []float64{0, 3e-4} {
		sys.ShockRate, sys.ShockChance = events, 1e-15 // strikes nothing
		b, sums := following(sys, 11)
		from := func() *line {
			l := lineAt(b, 1000)
			fail(b, l, 0, 3000)
			fail(b, l, 0, 3000)
			fail(b, l, 1, 3000)
			return l
		}
		loss, fork := 3*rate*2, 4*rate*1.5
		all := loss + fork + events
		ends := -math.Expm1(-all * dt)
		left, branches, counted := windows(b, sums, from, dt, thorough.Count(100000, 50000))
		left.Is(t, "left", math.Exp(-all*dt))
		branches[1].Is(t, "forks", fork/all*ends)
		counted[model.Loss].Is(t, "losses", loss/all*ends)
		counted[model.LossEvents].Is(t, "loss events", loss/all*ends)
		counted[model.Any].Is(t, "incidents", loss/all*ends)
		// One group has no redundancy left until the window ends: E[min(T, t)].
		counted[model.Unprotected].Is(t, "hours without redundancy", ends/all)
		if events > 0 {
			branches[none].Is(t, "common cause", events/all*ends)
		} else if branches[none].Sum() != 0 {
			t.Errorf("common cause where there is none: %+v", branches[none])
		}
		if branches[2].Sum() != 0 || branches[0].Sum() != 0 {
			t.Errorf("a whole group forks, or one that is lost: %+v, %+v", branches[2], branches[0])
		}
	}
}

// The same with hazards that grow, by gonum's quadrature: an end comes with
// ∫ h(x) exp(−H(x)) dx of its own hazard and that of all.
func TestWindowOfGrowingHazards(t *testing.T) {
	t.Parallel()
	const now, dt, shape, scale = 4000.0, 5000.0, 3.0, 12000.0
	sys := systemOf(2, 4, 2, law.Weibull{Shape: shape, Scale: scale}, law.Fixed(9000))
	b, sums := following(sys, 12)
	from := func() *line {
		l := lineAt(b, now)
		fail(b, l, 0, 12000)
		fail(b, l, 0, 12000)
		fail(b, l, 1, 12000)
		return l
	}
	h := func(x float64) float64 { return shape / scale * math.Pow((now+x)/scale, shape-1) }
	over := func(x float64) float64 { return math.Pow((now+x)/scale, shape) - math.Pow(now/scale, shape) }
	ends := func(drives float64) float64 {
		return quad.Fixed(func(x float64) float64 { return drives * h(x) * math.Exp(-5*over(x)) }, 0, dt, 200, nil, 0)
	}
	left, branches, counted := windows(b, sums, from, dt, thorough.Count(100000, 50000))
	left.Is(t, "left", math.Exp(-5*over(dt)))
	branches[1].Is(t, "forks", ends(3))
	counted[model.Loss].Is(t, "losses", ends(2))
}

// Read errors come at their number over a rebuild ÷ its length. Under stop they
// compete with failures for the loss; under skip each costs a stripe until the
// window ends, and the first of both is the first incident.
func TestWindowWithReadErrors(t *testing.T) {
	t.Parallel()
	const rate, dt, length, errors = 5e-4, 300.0, 500.0, 0.8
	sys := systemOf(1, 5, 1, law.Constant{PerHour: rate}, law.Fixed(length))
	sys.ReadErrors = errors
	from := func(b *Simulator) func() *line {
		return func() *line {
			l := lineAt(b, 1000)
			fail(b, l, 0, 1000+length)
			return l
		}
	}
	const failures, reads = 4 * rate, errors / length

	sys.Stop = true
	b, sums := following(sys, 13)
	left, _, counted := windows(b, sums, from(b), dt, 100000)
	all := failures + reads
	left.Is(t, "left under stop", math.Exp(-all*dt))
	counted[model.Loss].Is(t, "losses under stop", -math.Expm1(-all*dt))
	counted[model.Failures].Is(t, "of them by a drive", -failures/all*math.Expm1(-all*dt))

	sys.Stop = false
	b, sums = following(sys, 14)
	left, _, counted = windows(b, sums, from(b), dt, 100000)
	until := -math.Expm1(-failures*dt) / failures // E[min(T, t)], T the failure that loses the group
	left.Is(t, "left under skip", math.Exp(-failures*dt))
	counted[model.Loss].Is(t, "losses under skip", failures*until)
	counted[model.Stripes].Is(t, "stripes", reads*until)
	counted[model.Incidents].Is(t, "incidents", (reads+failures)*until)
	counted[model.Any].Is(t, "the first incident", -math.Expm1(-all*dt))
}

// Under skip, with hazards that grow and another group that may fork, the first
// incident comes with ∫ (f(x) + u) exp(−F(x) − G(x) − u·x) dx, of the failures f and
// the sectors u of the group without redundancy and the failures g of the other: once
// the line forks, it is the branch's.
func TestFirstIncidentOfGrowingHazards(t *testing.T) {
	t.Parallel()
	const now, dt, shape, scale, length, errors = 4000.0, 5000.0, 3.0, 12000.0, 8000.0, 0.9
	sys := systemOf(2, 4, 2, law.Weibull{Shape: shape, Scale: scale}, law.Fixed(length))
	sys.ReadErrors = errors
	b, sums := following(sys, 16)
	from := func() *line {
		l := lineAt(b, now)
		fail(b, l, 0, now+length)
		fail(b, l, 0, now+length)
		fail(b, l, 1, now+length)
		return l
	}
	h := func(x float64) float64 { return shape / scale * math.Pow((now+x)/scale, shape-1) }
	over := func(x float64) float64 { return math.Pow((now+x)/scale, shape) - math.Pow(now/scale, shape) }
	const sectors = errors / length
	_, _, counted := windows(b, sums, from, dt, thorough.Count(200000, 50000))
	counted[model.Any].Is(t, "the first incident", quad.Fixed(func(x float64) float64 {
		return (2*h(x) + sectors) * math.Exp(-5*over(x)-sectors*x)
	}, 0, dt, 200, nil, 0))
	counted[model.Stripes].Is(t, "stripes", quad.Fixed(func(x float64) float64 { return sectors * math.Exp(-5*over(x)) }, 0, dt, 200, nil, 0))
}

// Of many forks only some are followed, with the weight of all.
func TestForksThatAreLeftOutAreMadeUpFor(t *testing.T) {
	t.Parallel()
	const rate, dt = 1e-5, 50.0
	sys := systemOf(1, 6, 3, law.Constant{PerHour: rate}, law.Fixed(20000))
	b, sums := following(sys, 15)
	from := func() *line {
		l := lineAt(b, 1000)
		fail(b, l, 0, 21000)
		return l
	}
	forks := 0
	for range 1000 {
		b.tr = sums.Begin()
		l := from()
		b.ahead(l, dt, false)
		forks += len(b.stack)
		b.idle, b.stack = append(b.idle, b.stack...), b.stack[:0]
	}
	if forks == 0 || forks > 100 {
		t.Errorf("%d of 1 000 windows of a long stay fork", forks)
	}
	_, branches, _ := windows(b, sums, from, dt, 300000)
	branches[0].Is(t, "forks", -math.Expm1(-5*rate*dt))
}
