package engine

import (
	"context"
	"math"
	"slices"
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"
)

// A speedCase is a system that is measured.
type speedCase struct {
	name string
	sys  *model.System
}

var speedCases = []speedCase{
	{"8drives/tolerance1", simtest.OneGroup(8, 1, simtest.HalfMillionHours, law.Exponential(48), 43800)},
	{"8drives/tolerance2", simtest.OneGroup(8, 2, simtest.HalfMillionHours, law.Exponential(48), 43800)},
	{"8drives/tolerance3", simtest.OneGroup(8, 3, simtest.HalfMillionHours, law.Exponential(48), 43800)},
	{"8drives/tolerance4", simtest.OneGroup(8, 4, simtest.HalfMillionHours, law.Exponential(48), 43800)},
	{"24drives/tolerance2", simtest.OneGroup(24, 2, simtest.HalfMillionHours, law.Exponential(48), 43800)},
	{"24drives/tolerance4", simtest.OneGroup(24, 4, simtest.HalfMillionHours, law.Exponential(48), 43800)},
	{"100drives/tolerance2", simtest.OneGroup(100, 2, simtest.HalfMillionHours, law.Exponential(48), 43800)},
	{"100drives/tolerance3", simtest.OneGroup(100, 3, simtest.HalfMillionHours, law.Exponential(48), 43800)},
	{"weibull/lognormal/tolerance2", simtest.OneGroup(8, 2, simtest.Wearing, simtest.HeavyTailed, 43800)},
	{"weibull/lognormal/tolerance3", simtest.OneGroup(8, 3, simtest.Wearing, simtest.HeavyTailed, 43800)},
	{"weibull/fixed/tolerance2", simtest.OneGroup(8, 2, simtest.Wearing, law.Fixed(12), 87600)},
}

// visitCases are systems whose failed drives each wait for a visit of their own.
var visitCases = []speedCase{
	{"visits/24weibull/tolerance3", visited(1, 24, 3, simtest.Wearing)},
	{"visits/200weibull/tolerance3", visited(1, 200, 3, simtest.Wearing)},
	{"visits/10groups/12drives/tolerance2", visited(10, 12, 2, simtest.HalfMillionHours)},
	{"visits/10groups/12weibull/tolerance3", visited(10, 12, 3, simtest.Wearing)},
}

// visited returns a system of sets of one group each.
func visited(sets, drives, tolerance int, life law.Life) *model.System {
	s := simtest.OneGroup(drives, tolerance, life, nil, 43800)
	s.Sets = sets
	s.Repair = model.Repair{Notice: law.Fixed(4), Response: model.Wait{Law: law.Exponential(36)}, Rebuild: 12}
	return s
}

// BenchmarkToOnePercent measures the processor's time in which the loss chance is known
// to a relative standard error of 1 %: the time of a trial × trials × (error ÷ 1 %)², as
// ms-to-1%. c is the relative standard error × √trials.
func BenchmarkToOnePercent(b *testing.B) {
	for _, c := range slices.Concat(speedCases, visitCases) {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			start := processorTime()
			s := trials(b, c.sys, max(4096, b.N), false)
			spent := (processorTime() - start).Seconds()
			e := relativeError(s)
			b.ReportMetric(e*math.Sqrt(s.N), "c")
			b.ReportMetric(1e9*spent/s.N, "cpu-ns/trial")
			b.ReportMetric(1e3*spent*e*e*1e4, "ms-to-1%")
		})
	}
}

// trials runs so many trials of a system on one core.
func trials(b *testing.B, sys *model.System, n int, plain bool) *model.Sums {
	b.Helper()
	s, _, err := Simulate(context.Background(), sys, Options{Seed: 1, Accuracy: -1, MaxTrials: int64(n), Plain: plain, Branching: !plain, Workers: 1})
	if err != nil {
		b.Fatal(err)
	}
	return s
}

// relativeError returns the relative standard error of the loss chance.
func relativeError(s *model.Sums) float64 { return model.NewFit(s).Estimate(model.Loss).RelativeError }

// BenchmarkAgainstLiterature sets the engine beside the methods of the literature, in
// turns in one run: ms-to-1% of each, and how many times that of the engine it is
// (all outputs told by the engine, the loss chance alone by the others).
func BenchmarkAgainstLiterature(b *testing.B) {
	for _, c := range speedCases {
		if _, constant := c.sys.Life.(law.Constant); !constant {
			continue
		}
		b.Run(c.name, func(b *testing.B) {
			chain := chainOf(c.sys)
			d, rnd, want := newDrives(chain, c.sys.Horizon), stream.New(1, 0), chain.LossBy(c.sys.Horizon)
			ours := 0.0
			theirs := make([]float64, len(literature))
			for range b.N {
				start := processorTime()
				e := relativeError(trials(b, c.sys, 16384, false))
				ours += (processorTime() - start).Seconds() * e * e
				for i, m := range literature {
					start := processorTime()
					_, err := meanLife(d, m.life, 200000, rnd)
					theirs[i] += (processorTime() - start).Seconds() * (err / want) * (err / want)
				}
			}
			toOnePercent := 1e3 * 1e4 / float64(b.N)
			b.ReportMetric(ours*toOnePercent, "engine-ms")
			for i, m := range literature {
				b.ReportMetric(theirs[i]*toOnePercent, m.name+"-ms")
				b.ReportMetric(theirs[i]/ours, m.name+"/engine")
			}
			b.ReportMetric(0, "ns/op")
		})
	}
}

// BenchmarkLargeSystems measures a trial of the largest systems.
func BenchmarkLargeSystems(b *testing.B) {
	sets := simtest.OneGroup(12, 3, simtest.HalfMillionHours, law.Exponential(48), 43800)
	sets.Sets, sets.ShockRate, sets.ShockChance = 50, 0.1/8760, 0.2
	for _, c := range []struct {
		name string
		sys  *model.System
	}{
		{"1000drives/weibull/tolerance3", simtest.OneGroup(1000, 3, simtest.Wearing, law.Exponential(48), 43800)},
		{"50sets/12drives/commoncause", sets},
	} {
		b.Run(c.name, func(b *testing.B) {
			start := processorTime()
			s := trials(b, c.sys, b.N, false)
			e := relativeError(s)
			b.ReportMetric(e*math.Sqrt(s.N), "c")
			b.ReportMetric(1e6*(processorTime()-start).Seconds()/s.N, "cpu-us/trial")
		})
	}
}

// BenchmarkPlainOverBranching sets the two simulations side by side
// in one run, where losses are common enough for the plain one to see some:
// work is time × relative variance, plain/branching the ratio of it. It grows
// as 1 ÷ the loss chance.
func BenchmarkPlainOverBranching(b *testing.B) {
	for _, c := range []struct {
		name   string
		sys    *model.System
		trials int // plain ones
	}{
		{"24drives/tolerance1/mtbf50000h", simtest.OneGroup(24, 1, law.Constant{PerHour: 1.0 / 50000}, law.Exponential(48), 43800), 20000},
		{"24drives/tolerance1/mtbf500000h", simtest.OneGroup(24, 1, law.Constant{PerHour: 1.0 / 500000}, law.Exponential(48), 43800), 100000},
		{"8drives/tolerance1/mtbf500000h", simtest.OneGroup(8, 1, simtest.HalfMillionHours, law.Exponential(48), 43800), 400000},
		{"10drives/tolerance2/mtbf160000h", simtest.OneGroup(10, 2, law.Constant{PerHour: 1.0 / 160000}, law.Exponential(48), 43800), 3000000},
	} {
		b.Run(c.name, func(b *testing.B) {
			for range b.N {
				work := func(plain bool, n int) float64 {
					start := processorTime()
					e := relativeError(trials(b, c.sys, n, plain))
					return (processorTime() - start).Seconds() * e * e
				}
				b.ReportMetric(work(true, c.trials)/work(false, 100000), "plain/branching")
				b.ReportMetric(chainOf(c.sys).LossBy(c.sys.Horizon), "loss-chance")
			}
		})
	}
}
