package branch

import (
	"math"
	"testing"

	"arrayodds/array/unit"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// restores are laws of what restoring takes, and their densities by gonum.
var restores = []struct {
	name string
	law  law.Time
	prob func(x float64) float64
	to   float64 // beyond which it does not go, but for 1e-9 of the cases
}{
	{"exponential", law.Exponential(60), distuv.Exponential{Rate: 1.0 / 60}.Prob, 1500},
	{"lognormal", law.Lognormal{Mu: 3, Sigma: 0.8}, distuv.LogNormal{Mu: 3, Sigma: 0.8}.Prob, 2500},
	{"Weibull from 10 h on", law.Weibull{Min: 10, Scale: 50, Shape: 1.7}, func(x float64) float64 { return distuv.Weibull{K: 1.7, Lambda: 50}.Prob(x - 10) }, 600},
}

// When a drive fails the length of its outage is drawn twice. The tilted draw is for
// what branches off or is lost meanwhile, the other for the line that goes on: both
// come to what one draw from the law would give, E[1 − exp(−h·τ)] and E[exp(−h·τ)],
// by gonum's density and quadrature. With one group the line is its own twin for a
// while; with several the twin is a line of its own.
func TestOutageIsDrawnTwice(t *testing.T) {
	t.Parallel()
	const rate = 2e-4
	for _, r := range restores {
		for _, groups := range []int{1, 3} {
			for _, tolerance := range []int{1, 2} {
				sys := systemOf(groups, 6, tolerance, law.Constant{PerHour: rate}, r.law)
				sys.Horizon = 1e7
				b, sums := following(sys, uint64(20+tolerance))
				further, h := simtest.Mean{}, 5*rate
				var left simtest.Mean
				for range 40000 {
					b.tr = sums.Begin()
					l := lineAt(b, 1000)
					l.removeDrive(b, 0, none)
					l.raise(0)
					b.repair(l, 0)
					if groups > 1 {
						twin := b.stack[len(b.stack)-1]
						if twin.twin != 0 || twin.counts() != 0 {
							t.Fatalf("%+v is no twin", twin)
						}
						b.ahead(twin, twin.down[0].at-twin.now, false)
						b.end(twin)
					}
					further.Add(b.tr.Amounts[model.Loss] + weights(b))
					b.ahead(l, l.down[0].at-l.now, false)
					left.Add(l.w)
					if !l.groups[0].shadow || weights(b) != 0 {
						t.Fatal("the line forks beside its twin")
					}
					b.release(l)
				}
				name := r.name
				want := quad.Fixed(func(x float64) float64 { return r.prob(x) * -math.Expm1(-h*x) }, 0, r.to, 2000, nil, 0)
				further.Is(t, name+": a further failure meanwhile", want)
				left.Is(t, name+": none", 1-want)
			}
		}
	}
}

// weights ends the branches on the stack, and returns the weight of those in which
// nothing was lost yet.
func weights(b *Simulator) (sum float64) {
	for _, c := range b.stack {
		if !c.lost && c.twin == none {
			sum += c.w
		}
	}
	b.idle, b.stack = append(b.idle, b.stack...), b.stack[:0]
	return sum
}

// By hand: notice 2 h, response 20 h, rebuild 10 h. Two drives of a group fail at 0 h
// and at 5 h. Waits run side by side, to 22 h and 27 h; rebuilds one after the other,
// 22 to 32 h and 32 to 42 h, or both at once, 22 to 32 h and 27 to 37 h.
func TestWaitsAndRebuildsByHand(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		parallel bool
		times    []float64
	}{{false, []float64{22, 27, 32, 42}}, {true, []float64{22, 27, 32, 37}}} {
		sys := systemOf(1, 5, 2, law.Constant{PerHour: 1e-12}, nil)
		sys.Repair = model.Repair{Notice: law.Fixed(2), Response: model.Wait{Law: law.Fixed(20)}, Rebuild: 10, Parallel: c.parallel}
		b, _ := following(sys, 30)
		l := lineAt(b, 0)
		b.push(l)
		for _, at := range []float64{0, 5} {
			l.now = at
			l.removeDrive(b, 0, none)
			l.raise(0)
			b.repair(l, 0)
		}
		for _, want := range c.times {
			at, what := l.nextScheduled(sys.Horizon, false)
			near(t, "what comes next", at, want, 1e-12)
			l.now = at
			if l.down[what].state == waiting {
				b.ready(l, what)
			} else if !b.restored(l, what) {
				t.Fatal("a line ends that never forked")
			}
		}
		if len(l.down) != 0 || l.groups[0].level != 0 || l.groups[0].running != 5 || l.groups[0].cleared != c.times[3] || l.calm != 5 {
			t.Errorf("all is restored, and yet %+v, %+v", l.groups[0], l.down)
		}
	}
}

// By hand: two hot spares, back 500 h after they were taken. Failures at 0, 100, 200,
// 499, 501 and 601 h find a spare, another one, none, none, one, and one.
func TestSparesByHand(t *testing.T) {
	t.Parallel()
	sys := systemOf(1, 8, 6, law.Constant{PerHour: 1e-12}, nil)
	sys.Spares = 2
	sys.Repair = model.Repair{Notice: law.Fixed(1), Response: model.Wait{Law: law.Fixed(3000)}, Restock: model.Wait{Law: law.Fixed(500)}, Rebuild: 30}
	b, _ := following(sys, 31)
	l := lineAt(b, 0)
	for i, c := range []struct {
		at    float64
		state state
	}{{0, rebuilding}, {100, queued}, {200, waiting}, {499, waiting}, {501, queued}, {601, queued}} {
		l.now = c.at
		l.removeDrive(b, 0, none)
		l.raise(0)
		b.repair(l, 0)
		if got := l.down[i].state; got != c.state {
			t.Errorf("the failure at %g h is in state %d, should be %d", c.at, got, c.state)
		}
	}
	near(t, "the wait", l.down[2].at, 200+1+3000, 1e-12)
}

// By hand: Monday to Friday 8 to 17 h, 6 open hours. A failure that is noticed on a
// Friday at 14 h is answered on Monday at 11 h, 69 hours later.
func TestResponseInOpenHours(t *testing.T) {
	t.Parallel()
	week := unit.Week{}
	for day := range 5 {
		week = append(week, unit.Week{{From: float64(24*day + 8), To: float64(24*day + 17)}}...)
	}
	sys := systemOf(1, 5, 1, law.Constant{PerHour: 1e-12}, nil)
	sys.Repair = model.Repair{Notice: law.Fixed(4), Response: model.Wait{Open: &law.OpenHours{Within: 6, Week: week}}, Rebuild: 10}
	b, _ := following(sys, 32)
	b.phase = 100 // the life begins on a Friday at 4 h
	l := lineAt(b, 168+6)
	l.removeDrive(b, 0, none)
	l.raise(0)
	b.repair(l, 0) // at 10 h
	near(t, "the answer", l.down[0].at-l.now, 4+69, 1e-12)
}
