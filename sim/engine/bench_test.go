package engine

import (
	"context"
	"math"
	"testing"
	"time"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

var speedCases = []struct {
	name string
	sys  *model.System
}{
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

// BenchmarkToOnePercent measures the time in which the loss chance is known to a
// relative standard error of 1 %, on one core: the time of a trial × trials ×
// (error ÷ 1 %)², as ms-to-1%. c is the relative standard error × √trials.
func BenchmarkToOnePercent(b *testing.B) {
	for _, c := range speedCases {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			s, _, err := Simulate(context.Background(), c.sys, Options{Seed: 1, Accuracy: -1, MaxTrials: int64(max(4096, b.N)), Workers: 1})
			if err != nil {
				b.Fatal(err)
			}
			e := model.NewFit(s).Estimate(model.Loss).RelativeError
			spread := e * math.Sqrt(s.N)
			perTrial := b.Elapsed().Seconds() / s.N
			b.ReportMetric(spread, "c")
			b.ReportMetric(1e3*perTrial*spread*spread*1e4, "ms-to-1%")
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
				work := func(plain bool, trials int) float64 {
					start := time.Now()
					s, _, err := Simulate(context.Background(), c.sys, Options{Seed: 1, Accuracy: -1, MaxTrials: int64(trials), Plain: plain, Workers: 1})
					if err != nil {
						b.Fatal(err)
					}
					e := model.NewFit(s).Estimate(model.Loss).RelativeError
					return time.Since(start).Seconds() * e * e
				}
				b.ReportMetric(work(true, c.trials)/work(false, 100000), "plain/branching")
				b.ReportMetric(chainOf(c.sys).LossBy(c.sys.Horizon), "loss-chance")
			}
		})
	}
}
