package branch

import (
	"math"
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/simtest"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// aged is a group of six drives at 20 000 h, two of which were replaced, at 5 000 h
// and at 19 000 h, with frailties of their own; another one is down. The hazards are
// those of Weibull laws by gonum, times the life's multipliers.
func aged(t *testing.T) (b *Simulator, l *line, hazard, cumulative func(x float64) float64) {
	t.Helper()
	w := law.Weibull{Shape: 1.8, Scale: 90000}
	sys := systemOf(1, 6, 2, w, law.Fixed(100))
	sys.Frailty, sys.Degraded = 0.5, []float64{1, 1.5, 4}
	b, _ = following(sys, 5)
	b.rate, b.batch = 1.2, 0.8
	l = lineAt(b, 20000)
	for _, y := range []youngDrive{{install: 5000, batch: 2, bound: math.Inf(1)}, {install: 19000, batch: 0.3, bound: 0.3 * 1.1e-4}} {
		l.removeDrive(b, 0, none)
		l.groups[0].running++
		l.young = append(l.young, y)
	}
	fail(b, l, 0, 20100)
	gonum := distuv.Weibull{K: w.Shape, Lambda: w.Scale}
	ages := []struct{ batch, age float64 }{{0.8, 20000}, {0.8, 20000}, {0.8, 20000}, {2, 15000}, {0.3, 1000}}
	hazard = func(x float64) (sum float64) {
		for _, a := range ages {
			sum += 1.2 * 1.5 * a.batch * gonum.Prob(a.age+x) / gonum.Survival(a.age+x)
		}
		return sum
	}
	cumulative = func(x float64) (sum float64) {
		for _, a := range ages {
			sum += 1.2 * 1.5 * a.batch * math.Log(gonum.Survival(a.age)/gonum.Survival(a.age+x))
		}
		return sum
	}
	return b, l, hazard, cumulative
}

func TestHazardOfAGroup(t *testing.T) {
	t.Parallel()
	b, l, hazard, cumulative := aged(t)
	for _, x := range []float64{0.5, 20, 1000, 20000} {
		near(t, "hazard", b.rateAt(l, 0, x), hazard(x), 1e-9)
		near(t, "cumulative hazard", b.over(l, 0, x), cumulative(x), 1e-9)
	}
	sys := systemOf(1, 6, 2, law.Constant{PerHour: 3e-6}, law.Fixed(100))
	sys.Degraded[1] = 2
	c, _ := following(sys, 5)
	l = lineAt(c, 20000)
	fail(c, l, 0, 20100)
	near(t, "of constant rates", c.over(l, 0, 40), 2*5*3e-6*40, 1e-12)
}

// Within a window a failure comes, by gonum's hazards, where its share of the chance is
// reached, in a long window or, in a short one, at that share of the hours, weighed by the
// density there.
func TestTimeOfAFork(t *testing.T) {
	t.Parallel()
	b, l, hazard, cumulative := aged(t)
	for _, dt := range []float64{1, 100, 2000, 20000} {
		b.look(l, dt, false)
		for _, share := range []float64{0.001, 0.3, 0.999} {
			x, chance := b.when(l, b.win.forks, share, b.win.forks[0].failure)
			if dt > 10000 {
				happens := -math.Expm1(-cumulative(dt))
				near(t, "share of the window's chance", -math.Expm1(-cumulative(x))/happens, share, 1e-6)
				near(t, "chance", chance, happens, 1e-9)
				continue
			}
			near(t, "time", x, share*dt, 1e-12)
			near(t, "chance", chance, dt*hazard(x)*math.Exp(-cumulative(x)), 1e-9)
		}
	}
}

// The drive that fails is chosen in proportion to the hazards at that time.
func TestPickDrive(t *testing.T) {
	t.Parallel()
	b, l, hazard, _ := aged(t)
	const x = 500
	gonum := distuv.Weibull{K: 1.8, Lambda: 90000}
	of := func(batch, age float64) float64 {
		return 1.8 * batch * gonum.Prob(age+x) / gonum.Survival(age+x) / hazard(x) // 1.2 × 1.5
	}
	picked := map[int]*simtest.Mean{none: {}, 0: {}, 1: {}}
	for range 100000 {
		g := b.pickDrive(l, 0, x)
		for which, m := range picked {
			if which == g {
				m.Add(1)
			} else {
				m.Add(0)
			}
		}
	}
	picked[none].Is(t, "an original", 3*of(0.8, 20000))
	picked[0].Is(t, "the one of 5 000 h", of(2, 15000))
	picked[1].Is(t, "the one of 19 000 h", of(0.3, 1000))
}

// The next failure in whole groups is the least of competing lifetimes: its time has
// the product of their survivals, and a drive is the one with ∫ h(x) S(x) dx, by
// gonum's laws and quadrature.
func TestNextFailure(t *testing.T) {
	t.Parallel()
	w := law.Weibull{Shape: 0.8, Scale: 30000}
	sys := systemOf(3, 2, 1, w, law.Fixed(100))
	sys.Frailty = 0.5
	b, _ := following(sys, 6)
	b.rate, b.batch = 1.5, 0.6
	l := lineAt(b, 9000)
	// Group 0 is whole with a young drive, group 1 has a drive down, group 2 is whole.
	l.groups[0].original--
	l.calm--
	l.young = append(l.young, youngDrive{install: 8000, batch: 3, bound: 3 * b.life.MaxRate(0, sys.Horizon)})
	fail(b, l, 1, 9100)

	gonum := distuv.Weibull{K: w.Shape, Lambda: w.Scale}
	h := func(batch, age float64) float64 { return 1.5 * batch * gonum.Prob(age) / gonum.Survival(age) }
	over := func(batch, age, x float64) float64 {
		return 1.5 * batch * math.Log(gonum.Survival(age)/gonum.Survival(age+x))
	}
	all := func(x float64) float64 { return 3*over(0.6, 9000, x) + over(3, 1000, x) }
	const limit = 4000
	share := func(hazard func(x float64) float64) float64 {
		return quad.Fixed(func(x float64) float64 { return hazard(x) * math.Exp(-all(x)) }, 0, limit, 200, nil, 0)
	}
	var young, first, third, none_ simtest.Mean
	var times []float64
	for range 100000 {
		dt, g, y := b.nextFailure(l, limit)
		count := func(m *simtest.Mean, is bool) {
			if is {
				m.Add(1)
			} else {
				m.Add(0)
			}
		}
		count(&none_, g == none)
		count(&young, g == 0 && y == 0)
		count(&first, g == 0 && y == none)
		count(&third, g == 2)
		if g == 1 {
			t.Fatal("a group with a drive down is not whole")
		}
		if g != none {
			times = append(times, dt)
		} else if dt != limit {
			t.Fatalf("no failure, and yet after %g h", dt)
		}
	}
	none_.Is(t, "none", math.Exp(-all(limit)))
	young.Is(t, "the young one", share(func(x float64) float64 { return h(3, 1000+x) }))
	first.Is(t, "the old one of group 0", share(func(x float64) float64 { return h(0.6, 9000+x) }))
	third.Is(t, "group 2", share(func(x float64) float64 { return 2 * h(0.6, 9000+x) }))
	simtest.Follows(t, "time of the next failure", times, func(x float64) float64 { return math.Expm1(-all(x)) / math.Expm1(-all(limit)) })
}

// Where all drives are alike for ever it is an exponential of all of them.
func TestNextFailureOfConstantRates(t *testing.T) {
	t.Parallel()
	sys := systemOf(2, 4, 1, law.Constant{PerHour: 1e-5}, law.Fixed(100))
	b, _ := following(sys, 7)
	l := lineAt(b, 100)
	fail(b, l, 1, 200)
	var times []float64
	for range 20000 {
		dt, g, _ := b.nextFailure(l, 1e9)
		if g != 0 {
			t.Fatalf("group %d fails", g)
		}
		times = append(times, dt)
	}
	simtest.Follows(t, "time of the next failure", times, distuv.Exponential{Rate: 4e-5}.CDF)
}
