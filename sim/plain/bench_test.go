package plain_test

import (
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/plain"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"
)

// BenchmarkLife measures one life of systems with many drives.
func BenchmarkLife(b *testing.B) {
	sets := simtest.OneGroup(12, 2, simtest.HalfMillionHours, law.Exponential(48), 43800)
	sets.Sets = 50
	sets.ShockRate, sets.ShockChance = 0.1/8760, 0.01
	often := simtest.OneGroup(12, 1, law.Constant{PerHour: 1.0 / 50000}, law.Exponential(48), 43800)
	often.Sets = 10
	worse := simtest.OneGroup(100, 3, simtest.Wearing, simtest.HeavyTailed, 43800)
	for k := range worse.Degraded {
		worse.Degraded[k] = float64(1 + k)
	}
	for _, c := range []struct {
		name string
		sys  *model.System
	}{
		{"100drives", simtest.OneGroup(100, 2, simtest.HalfMillionHours, law.Exponential(48), 43800)},
		{"100drives/weibull/lognormal", simtest.OneGroup(100, 3, simtest.Wearing, simtest.HeavyTailed, 43800)},
		{"100drives/weibull/lognormal/degraded", worse},
		{"1000drives/weibull", simtest.OneGroup(1000, 3, simtest.Wearing, law.Exponential(48), 43800)},
		{"600drives/50sets/commoncause", sets},
		{"120drives/10sets/mtbf50000h", often},
		{"8drives", simtest.OneGroup(8, 2, simtest.HalfMillionHours, law.Exponential(48), 43800)},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			one, sums, rnd := plain.New(c.sys), model.NewSums(c.sys), stream.New(1, 0)
			for k := range b.N {
				rnd.Restart(1, uint64(k))
				one.Life(rnd, sums.Begin())
				sums.End()
			}
		})
	}
}
