package branch

import (
	"maps"
	"math"
	"slices"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/branch/hazard"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"
)

// What a large group's young drives are reckoned with, by their bounds, changes no mean:
// every figure is that of the same simulator when it works all hazards out, for drives that
// age, go by steps or have frailties, with read errors that stop and that are skipped, a
// multiplier, common cause, spares, and waits side by side.
func TestBoundsChangeNoMean(t *testing.T) {
	t.Parallel()
	ageing := law.Weibull{Shape: 1.3, Scale: 60000}
	changes := map[string]func(*model.System){
		"ageing":                nil,
		"steps":                 func(s *model.System) { s.Life = law.NewSteps([]float64{6e-6, 1e-5, 8e-6}, 17520) },
		"frailty":               func(s *model.System) { s.Life, s.Frailty = law.Constant{PerHour: 8e-6}, 0.5 },
		"read errors":           func(s *model.System) { s.ReadErrors = 0.05 },
		"read errors that stop": func(s *model.System) { s.ReadErrors, s.Stop = 0.02, true },
		"common cause":          func(s *model.System) { s.ShockRate, s.ShockChance = 5e-5, 0.02 },
		"two groups, parallel, a multiplier": func(s *model.System) {
			s.Sets, s.Repair.Parallel, s.Degraded = 2, true, []float64{1, 2, 3}
		},
		"spares": func(s *model.System) {
			s.Repair = model.Repair{Rebuild: 20, Restock: model.Wait{Law: law.Exponential(300)}, Notice: law.Fixed(1), Response: model.Wait{Law: law.Exponential(60)}}
			s.Spares = 2
		},
	}
	for i, name := range slices.Sorted(maps.Keys(changes)) {
		if !thorough.Part(i, 6) {
			continue
		}
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			sys := systemOf(1, 40, 2, ageing, law.Exponential(30))
			if change := changes[name]; change != nil {
				change(sys)
			}
			lives := thorough.Count(8000, 3000)
			if sys.Spares > 0 || sys.Sets > 1 {
				lives /= 2 // they take longer
			}
			means := func(bounded bool) (of [len(model.Amounts{})]simtest.Mean) {
				b, rnd, sums := New(sys), stream.New(7, 0), model.NewSums(sys)
				if !b.shares.Any() {
					t.Fatal("hazards are worked out")
				}
				if !bounded {
					b.shares = hazard.Shares{}
				}
				for range lives {
					tr := sums.Begin()
					if !b.Life(rnd, tr) {
						t.Fatal("a life has no end")
					}
					for q, x := range tr.Amounts {
						of[q].Add(x)
					}
					sums.End()
				}
				return of
			}
			bounded, exact := means(true), means(false)
			for q := range exact {
				if exact[q].Sum() > 0 {
					bounded[q].Equals(t, model.Quantity(q).String(), &exact[q])
				}
			}
		})
	}
}

// To pass a long window by bounds weighs in the mean what the hazard that it was reckoned
// with has beyond the real one, which stands here in full, and a failure in it comes at
// the real hazard per hour.
func TestBoundsWeighTheRealHazard(t *testing.T) {
	t.Parallel()
	life := law.Weibull{Shape: 1.5, Scale: 30000}
	b, _ := following(systemOf(1, 60, 2, life, law.Exponential(100)), 43)
	l := lineAt(b, 0)
	for range 40 {
		l.removeDrive(b, 0, none)
	}
	for i := range 39 {
		l.now = 700 * float64(i)
		l.addDrive(b, 0)
	}
	l.raise(0)
	l.down = append(l.down, downDrive{group: 0, state: rebuilding, at: 45000})
	l.now = 30000
	if !b.bounded(l, 0) {
		t.Fatal("hazards are worked out")
	}
	const hours, at = 2000.0, 1500.0
	real := func(x float64) float64 { // of the young, cumulative
		sum := 0.0
		for i := range l.young {
			sum += life.Over(30000-l.young[i].install, x)
		}
		return sum
	}
	reckoned := b.shares.At(l.now) * l.groups[0].bounds
	var passed, early, rate, rateOfOne simtest.Mean
	for range 100000 {
		b.look(l, hours, false)
		passed.Add(b.passed(hours))
		early.Add(b.passed(at))
		_, weight := b.pickBounded(l, 0, at)
		rate.Add(weight * b.rateAt(l, 0, at))
		rateOfOne.Add(b.rateAt(l, 0, at) + b.unreckoned(l, 0, at))
	}
	passed.Is(t, "the window", math.Exp(reckoned*hours-real(hours)))
	early.Is(t, "part of it", math.Exp(reckoned*at-real(at)))
	all := 20 * life.Rate(30000+at)
	for i := range l.young {
		all += life.Rate(30000 + at - l.young[i].install)
	}
	rate.Is(t, "the hazard by the drive that fails", all)
	rateOfOne.Is(t, "the hazard by one drive", all)
}
