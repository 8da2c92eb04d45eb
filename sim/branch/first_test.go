package branch

import (
	"math"
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/simtest"

	"gonum.org/v1/gonum/stat/distuv"
)

// The first failure of a life comes on condition that there is one: the weight is the
// chance that the first of n drives, a Weibull law with scale η ÷ n^(1/β), fails
// within the life, and the time follows that law, by gonum. The rest of the weight
// ends its life without a failure.
func TestFirstFailure(t *testing.T) {
	t.Parallel()
	for _, shape := range []float64{0.7, 1, 2.5} {
		const groups, drives, scale = 3, 4, 2e6
		sys := systemOf(groups, drives, 1, law.Weibull{Shape: shape, Scale: scale}, law.Fixed(10))
		first := distuv.Weibull{K: shape, Lambda: scale * math.Pow(groups*drives, -1/shape)}
		chance := first.CDF(sys.Horizon)
		b, sums := following(sys, 3)
		var times []float64
		var byGroup [groups]float64
		const lives = 20000
		for range lives {
			b.tr = sums.Begin()
			l := b.newLine()
			l.begin(sys)
			b.first(l, 1)
			near(t, "weight", l.w, chance, 1e-12)
			times = append(times, l.now)
			byGroup[l.strikes]++
			if l.struck != none {
				t.Fatal("a drive that is not one of the first fails first")
			}
			b.end(l)
			sums.End()
		}
		simtest.Follows(t, "time of the first failure", times, func(x float64) float64 { return first.CDF(x) / chance })
		near(t, "lives without a failure", sums.Failures.Weights[0], lives*(1-chance), 1e-9)
		// A binomial count, within 4 standard errors.
		for g, n := range byGroup {
			if math.Abs(n-lives/groups) > 4*math.Sqrt(lives*(1.0/groups)*(1-1.0/groups)) {
				t.Errorf("group %d fails first in %g of %d lives", g, n, lives)
			}
		}
	}
}

// With common cause the first thing that happens is one or the other: the weights of
// the line, of its branch and of the lives without either come to 1. Failures at λ
// and events at s are competing exponentials: a failure comes first with chance
// λ/(λ + s)·(1 − exp(−(λ + s)T)).
func TestFirstFailureOrEvent(t *testing.T) {
	t.Parallel()
	const failures, events = 4e-6, 9e-6
	sys := systemOf(1, 4, 3, law.Constant{PerHour: failures / 4}, law.Fixed(10))
	sys.ShockRate, sys.ShockChance = events, 1e-15 // strikes nothing
	b, sums := following(sys, 4)
	b.keepShock = 1e9 // every branch is kept
	some := -math.Expm1(-(failures + events) * sys.Horizon)
	var byFailure, byEvent simtest.Mean
	const lives = 50000
	for range lives {
		b.tr = sums.Begin()
		b.tr.Stratify(b.rnd.Float64())
		l := b.newLine()
		l.begin(sys)
		b.first(l, 1)
		byFailure.Add(l.w)
		event := 0.0
		for len(b.stack) > 0 {
			if c := b.stack[len(b.stack)-1]; c != l {
				event += c.w
			}
			b.end(b.stack[len(b.stack)-1])
		}
		byEvent.Add(event)
		sums.End()
	}
	byFailure.Is(t, "a failure first", failures/(failures+events)*some)
	byEvent.Is(t, "an event first", events/(failures+events)*some)
	near(t, "neither", sums.Failures.Weights[0]/lives, 1-some, 1e-9)
}
