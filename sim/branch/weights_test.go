package branch

import (
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"
)

// What lines gain and lose in weight has the mean 0: where groups fail often and wait for
// one another, where spares run out, where sectors end a group or do not, where drives wear
// and many of them are young, where common cause strikes, and in lives that begin with a
// drive down or with drives of several ages. (It is compared as 1 more, to which its error is
// small.)
func TestWeightsHaveTheMeanNought(t *testing.T) {
	t.Parallel()
	often := law.Constant{PerHour: 1e-5}
	for name, of := range map[string]func() *model.System{
		"one group": func() *model.System { return systemOf(1, 40, 3, often, law.Exponential(300)) },
		"fixed":     func() *model.System { return systemOf(1, 20, 2, often, law.Fixed(200)) },
		"groups":    func() *model.System { return systemOf(4, 8, 2, often, law.Exponential(200)) },
		"young": func() *model.System {
			return systemOf(1, 60, 2, law.Weibull{Shape: 1.5, Scale: 6e4}, law.Exponential(100))
		},
		"parallel": func() *model.System {
			s := systemOf(2, 8, 2, law.Weibull{Shape: 1.5, Scale: 6e4}, law.Exponential(100))
			s.Repair.Parallel = true
			return s
		},
		"spares": func() *model.System {
			s := systemOf(2, 6, 2, often, nil)
			s.Repair = model.Repair{Rebuild: 30, Restock: model.Wait{Law: law.Exponential(500)}, Notice: law.Fixed(1), Response: model.Wait{Law: law.Exponential(100)}}
			s.Spares = 2
			return s
		},
		"sectors that end a group": func() *model.System {
			s := systemOf(2, 8, 1, often, law.Exponential(200))
			s.ReadErrors, s.Stop = 0.2, true
			return s
		},
		"sectors that do not": func() *model.System {
			s := systemOf(2, 8, 1, often, law.Exponential(200))
			s.ReadErrors = 0.2
			return s
		},
		"common cause": func() *model.System {
			s := systemOf(2, 6, 2, often, law.Exponential(200))
			s.ShockRate, s.ShockChance = 3e-5, 0.4
			return s
		},
		"a drive down as it begins": func() *model.System {
			s := systemOf(1, 8, 2, often, law.Exponential(2000))
			s.Start = &model.Start{Phase: math.NaN(), Drives: make([]model.StartDrive, s.Drives), Cleared: make([]float64, 1)}
			s.Start.Drives[3].Down = true
			return s
		},
		"all drives run as it begins": func() *model.System {
			s := systemOf(2, 6, 2, often, law.Exponential(200))
			s.ShockRate, s.ShockChance = 3e-5, 0.4
			s.Start = &model.Start{Phase: math.NaN(), Drives: make([]model.StartDrive, 12), Cleared: make([]float64, 2)}
			return s
		},
		"all of them, and spares are out": func() *model.System {
			s := systemOf(2, 6, 2, often, nil)
			s.Repair = model.Repair{Rebuild: 30, Restock: model.Wait{Law: law.Exponential(500)}, Notice: law.Fixed(1), Response: model.Wait{Law: law.Exponential(100)}}
			s.Spares = 2
			s.ShockRate, s.ShockChance = 3e-5, 0.4
			s.Start = &model.Start{Phase: math.NaN(), Drives: make([]model.StartDrive, 12), Cleared: make([]float64, 2), Returns: []float64{100, math.NaN()}}
			return s
		},
		"all of them, of several ages": func() *model.System {
			s := systemOf(2, 6, 2, law.Weibull{Shape: 1.5, Scale: 6e4}, law.Exponential(200))
			s.ShockRate, s.ShockChance = 3e-5, 0.4
			s.Start = &model.Start{Phase: math.NaN(), Drives: make([]model.StartDrive, 12), Cleared: make([]float64, 2)}
			for i := range s.Start.Drives {
				s.Start.Drives[i].Age = 3000 * float64(i)
			}
			return s
		},
	} {
		sys := of()
		b, rnd, sums := New(sys), stream.New(8, 0), model.NewSums(sys)
		var mean simtest.Mean
		for range thorough.Count(20000, 4000) {
			tr := sums.Begin()
			if !b.Life(rnd, tr) {
				t.Fatal("a life has no end")
			}
			mean.Add(1 + tr.Controls[model.Weights])
			sums.End()
		}
		mean.Is(t, name, 1)
	}
}
