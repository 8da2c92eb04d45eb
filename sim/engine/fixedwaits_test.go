package engine

import (
	"math"
	"math/rand/v2"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/array/unit"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// fixedWaits is one group of drives with a constant rate, whose hot spares, waits and
// rebuilds take fixed lengths. Hours.
type fixedWaits struct {
	drives, tolerance, spares                 int
	life, response, restock, rebuild, horizon float64
}

// loss returns the weight of a loss in one life, 0 where there is none: the mean over
// lives is the loss chance.
//
// It is plain importance sampling, and has nothing of the engine. From a failure in a
// group that is whole, with all spares there, until all is whole again, drives fail in
// half of the cases at their own rate. In the other half they fail so many times as often
// that the spares run out, up to as many failures as that and a loss take, and no longer
// than a restock and a response. With m failures over a hazard of H by then, the second
// is likelier than the first by raise^m·exp(−(raise − 1)·H), and the weight is one over
// the mixture: 2 at most for each such excursion.
func (f *fixedWaits) loss(rnd *rand.Rand) float64 {
	each := 1 / f.life
	raise := float64(f.tolerance+f.spares) / (float64(f.drives) * each * max(f.response, f.restock))
	weight, now := 1.0, 0.0
	for {
		now += rnd.ExpFloat64() / (float64(f.drives) * each)
		times := 1.0
		if rnd.IntN(2) == 0 {
			times = raise
		}
		need, until := f.tolerance+f.spares, now+f.restock+f.response
		failures, hazard := 0.0, 0.0 // while they may be raised
		likelihood := func() float64 {
			return 1 / (0.5 + 0.5*math.Exp(failures*math.Log(raise)-(raise-1)*hazard))
		}
		var backs, waits []float64 // when spares come back, and waits end
		ready, finish := 0, math.Inf(1)
		fail := func() (lost bool) {
			if ready+len(waits) == f.tolerance {
				return true
			}
			if len(backs) == f.spares {
				waits = append(waits, now+f.response)
				return false
			}
			backs = append(backs, now+f.restock)
			if ready++; ready == 1 {
				finish = now + f.rebuild
			}
			return false
		}
		fail()
		for ready+len(waits)+len(backs) > 0 {
			next := finish
			if len(backs) > 0 { // of fixed lengths the first to begin is the first to end
				next = min(next, backs[0])
			}
			if len(waits) > 0 {
				next = min(next, waits[0])
			}
			rate := float64(f.drives-ready-len(waits)) * each
			raised := now < until && int(failures) < need
			if raised {
				next = min(next, until)
			}
			x := rnd.ExpFloat64() / rate
			if raised {
				x /= times
			}
			if now+x < next {
				now += x
				if raised {
					failures++
					hazard += rate * x
				}
				if now > f.horizon {
					return 0
				}
				if fail() {
					return weight * likelihood()
				}
				continue
			}
			if raised {
				hazard += rate * (next - now)
			}
			now = next
			switch {
			case now == finish:
				finish = math.Inf(1)
				if ready--; ready > 0 {
					finish = now + f.rebuild
				}
			case len(backs) > 0 && now == backs[0]:
				backs = backs[1:]
			case len(waits) > 0 && now == waits[0]:
				waits = waits[1:]
				if ready++; ready == 1 {
					finish = now + f.rebuild
				}
			}
		}
		if now > f.horizon {
			return 0
		}
		weight *= likelihood()
	}
}

func (f *fixedWaits) system() *model.System {
	sys := &model.System{
		Horizon: f.horizon, Sets: 1, GroupsPerSet: 1, Drives: f.drives, Tolerance: f.tolerance, Spares: f.spares,
		Life: law.Constant{PerHour: 1 / f.life},
		Repair: model.Repair{
			Notice: law.Fixed(0), Response: model.Wait{Law: law.Fixed(f.response)},
			Restock: model.Wait{Law: law.Fixed(f.restock)}, Rebuild: f.rebuild,
		},
	}
	for range f.tolerance + 1 {
		sys.Degraded = append(sys.Degraded, 1)
	}
	return sys
}

// Waits of fixed lengths, against importance sampling: within 4 standard errors of both.
// The first two are also what multilevel splitting finds, and an independent simulation
// by splitting of lives: 1.31e-9 ± 0.03e-9 and 2.8e-12 ± 0.2e-12.
func TestFixedWaitsWhereSparesRunOut(t *testing.T) {
	t.Parallel()
	const fiveYears = 5 * unit.HoursPerYear
	const rebuild = 4e12 / 150e6 / 3600 // 4 TB at 3/4 of 200 MB/s
	for i, c := range []struct {
		fixedWaits
		low, high float64 // where the figure is known from elsewhere
	}{
		{fixedWaits{12, 2, 2, 1.2e6, 1000, 1000, rebuild, fiveYears}, 1.28e-9, 1.34e-9},
		{fixedWaits{12, 3, 3, 6e5, 2160, 1440, rebuild, fiveYears}, 2.6e-12, 3.0e-12},
		{fixedWaits{2, 1, 1, 1e6, 500, 700, 5, fiveYears}, 0, 1},
		{fixedWaits{8, 1, 3, 4e5, 2000, 1500, 10, fiveYears}, 0, 1},
		{fixedWaits{6, 2, 1, 3e5, 200, 900, 20, fiveYears}, 0, 1},
		{fixedWaits{24, 2, 4, 8e5, 1500, 1500, 12, fiveYears}, 0, 1},
		{fixedWaits{10, 3, 1, 4e5, 700, 700, 24, fiveYears}, 0, 1},
		{fixedWaits{16, 4, 2, 4e5, 1500, 1000, 10, fiveYears}, 0, 1},
	} {
		lives, accuracy := 4000000, 0.02
		if !*thorough.Calibrate {
			if !thorough.Asked() && i > 1 && i != 4 {
				continue
			}
			lives, accuracy = 300000, 0.05
		}
		if !*thorough.Calibrate && c.low > 0 { // so few lives find too few of the heavy ones
			lives = 0
		}
		rnd := rand.New(rand.NewPCG(17, uint64(i)))
		sum, squares := 0.0, 0.0
		for range lives {
			x := c.loss(rnd)
			sum += x
			squares += x * x
		}
		n := float64(max(1, lives))
		mean := sum / n
		se := math.Sqrt(squares/n-mean*mean) / math.Sqrt(n)
		e := lossOf(t, c.system(), Options{Seed: 3, Accuracy: accuracy, MaxTrials: 1e7, LossOnly: true})
		z := (e.Value - mean) / math.Hypot(se, e.Value*e.RelativeError)
		t.Logf("%+v: %.4g ± %.1f %%, by importance sampling %.4g ± %.1f %%: %.1f standard errors", c.fixedWaits, e.Value, 100*e.RelativeError, mean, 100*se/mean, z)
		if lives > 0 && !(math.Abs(z) < 4 && se <= 0.2*mean) {
			t.Errorf("%+v: %.4g ± %.1f %%, by importance sampling %.4g ± %.1f %%: %.1f standard errors", c.fixedWaits, e.Value, 100*e.RelativeError, mean, 100*se/mean, z)
		}
		if reach := 3 * e.Value * e.RelativeError; e.Value < c.low-reach || e.Value > c.high+reach {
			t.Errorf("%+v: %.4g, known to be %.4g to %.4g", c.fixedWaits, e.Value, c.low, c.high)
		}
	}
}
