package spares

import (
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/exact"
)

const fiveYears = 5 * 8760

// near fails where got is not want to a relative tolerance.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if d := math.Abs(got-want) / math.Abs(want); !(d <= tolerance) {
		t.Errorf("%s = %.15g, want %.15g (off by %.2g of it, allowed %.2g)", what, got, want, d, tolerance)
	}
}

var chains = []struct {
	name  string
	chain Chain
	hours float64
}{
	{"one spare", Chain{Drives: 8, Tolerance: 2, Spares: 1, FailurePerHour: 2e-6, Response: 300, Restock: 500, Rebuild: 20}, 8760},
	{"two spares, long waits", Chain{Drives: 12, Tolerance: 2, Spares: 2, FailurePerHour: 1 / 1.2e6, Response: 1000, Restock: 1000, Rebuild: 8}, 4000},
	{"rebuilds at once", Chain{Drives: 12, Tolerance: 3, Spares: 2, FailurePerHour: 1 / 6e5, Response: 2160, Restock: 1440}, fiveYears},
	{"degraded", Chain{Drives: 6, Tolerance: 2, Spares: 1, FailurePerHour: 5e-6, DegradedFactor: 3, Response: 100, Restock: 700, Rebuild: 50}, 8760},
	{"stages", Chain{Drives: 6, Tolerance: 1, Spares: 2, FailurePerHour: 5e-6, DegradedFactor: 1, Response: 100, Restock: 700, Rebuild: 50, Stages: 3}, 8760},
	{"shocks", Chain{Drives: 6, Tolerance: 2, Spares: 2, FailurePerHour: 1e-6, Response: 200, Restock: 900, Rebuild: 30, ShockPerHour: 1e-5, ShockChance: 0.1}, 8760},
	{"common", Chain{Drives: 5, Tolerance: 1, Spares: 1, FailurePerHour: 1e-4, DegradedFactor: 2, Response: 500, Restock: 900, Rebuild: 100}, 8760},
	{"very rare", Chain{Drives: 6, Tolerance: 3, Spares: 1, FailurePerHour: 1e-9, Response: 24, Restock: 72, Rebuild: 5}, 2000},
}

// To the last digits but a few, from 1e-1 to below 1e-20, against 320 bits.
func TestLossByAgainstTaylor(t *testing.T) {
	t.Parallel()
	least, most := 1.0, 0.0
	for i, c := range chains {
		if i < 6 && !thorough.Part(i, 3) {
			continue
		}
		p := c.chain.LossBy(c.hours)
		near(t, c.name, p, byTaylor(c.chain, c.hours), 1e-11)
		least, most = min(least, p), max(most, p)
	}
	if least > 1e-20 || most < 0.1 {
		t.Errorf("chances from %g to %g", least, most)
	}
}

// Against gonum v0.17.0's matrix exponential, to what that keeps.
func TestLossByAgainstGonum(t *testing.T) {
	t.Parallel()
	compared := 0
	for _, c := range chains {
		p := c.chain.LossBy(c.hours)
		if p < 1e-6 {
			continue
		}
		compared++
		near(t, c.name, p, byGonum(c.chain, c.hours), 1e-8)
	}
	if compared < 3 {
		t.Errorf("only %d chains have a loss chance that gonum can tell", compared)
	}
}

// Where no spare is there, or there always is one, what is left is the chain without
// spares: waits run side by side, rebuilds one after the other.
func TestWithoutSparesIsTheOtherChain(t *testing.T) {
	t.Parallel()
	for _, tolerance := range []int{0, 1, 2, 4} {
		waits := exact.Chain{Drives: 9, Tolerance: tolerance, FailurePerHour: 2e-6, RestorePerHour: 1.0 / 70, Parallel: true, DegradedFactor: 2, ShockPerHour: 1e-6, ShockChance: 0.02}
		rebuilds := waits
		rebuilds.Parallel = false
		c := Chain{Drives: 9, Tolerance: tolerance, FailurePerHour: 2e-6, DegradedFactor: 2, ShockPerHour: 1e-6, ShockChance: 0.02}
		only, after, restocked, plenty := c, c, c, c
		only.Response, only.Restock = 70, 500
		near(t, "only waits", only.LossBy(fiveYears), waits.LossBy(fiveYears), 1e-11)
		after.Rebuild = 70
		near(t, "only rebuilds", after.LossBy(fiveYears), rebuilds.LossBy(fiveYears), 1e-11)
		restocked.Spares, restocked.Response, restocked.Rebuild = 1, 400, 70
		near(t, "spares back at once", restocked.LossBy(fiveYears), rebuilds.LossBy(fiveYears), 1e-11)
		plenty.Spares, plenty.Restock, plenty.Response, plenty.Rebuild = 7, 2, 400, 70
		near(t, "more spares than are ever out", plenty.LossBy(8760), rebuilds.LossBy(8760), 1e-9)
	}
}

// Two drives in a mirror and one spare that never comes back within the life: the loss
// is the second failure before the new drive of the first one, or later before that of
// a waiting one. By hand for lives that are short against everything else: the first
// failure (rate 2λ) takes the spare and is rebuilt in no time; the second (2λ) waits
// for ever; the third (λ) loses the pair. So 2λ·2λ·λ·T³/3!.
func TestSparesRunOutByHand(t *testing.T) {
	t.Parallel()
	c := Chain{Drives: 2, Tolerance: 1, Spares: 1, FailurePerHour: 1e-9, Response: 1e12, Restock: 1e12}
	near(t, "loss chance", c.LossBy(100), 4e-27*1e6/6, 1e-6)
}

// A rebuild of a fixed length τ in a mirror: with a spare always there, a pair is lost
// where the other drive fails within τ. Renewals: the rate of losses is 2λ(1 − exp(−λτ))
// once the first hours, and the hours of rebuilds, do not count; they make 1e-6 here.
func TestFixedRebuildByHand(t *testing.T) {
	t.Parallel()
	c := Chain{Drives: 2, Tolerance: 1, Spares: 1, FailurePerHour: 1e-6, Rebuild: 0.5}
	p, off := c.LossByFixedRebuild(87600)
	near(t, "loss chance", p, -math.Expm1(-87600*2e-6*-math.Expm1(-0.5e-6)), 1e-5)
	if !(off < 1e-6*p) {
		t.Errorf("%g may be off by %g", p, off)
	}
}

// Three failures within one serial rebuild after the other: stages move the chance by
// E[τ²] ÷ mean², 1 + 1/k, and what is extrapolated is told with an error that more
// stages bear out.
func TestStages(t *testing.T) {
	t.Parallel()
	thorough.Only(t, "eighty stages take half a second, and what is made of few is held against single lives")
	c := Chain{Drives: 8, Tolerance: 2, Spares: 3, FailurePerHour: 1e-6, Response: 200, Restock: 300, Rebuild: 24}
	p, off := c.LossByFixedRebuild(4380)
	if !(off < 1e-7*p) {
		t.Errorf("%g may be off by %g", p, off)
	}
	c.Stages = 40
	a := c.LossBy(4380)
	c.Stages = 80
	b := c.LossBy(4380)
	near(t, "80 stages", b, p*(1+1.0/80), 0.01)
	near(t, "40 and 80 stages, extrapolated once", 2*b-a, p, 1e-4)
}

// Nothing fails, and nothing can be lost: no loss.
func TestNoLoss(t *testing.T) {
	t.Parallel()
	if p := (Chain{Drives: 8, Tolerance: 1, Spares: 1, Response: 10, Restock: 10, Rebuild: 10}).LossBy(fiveYears); p != 0 {
		t.Errorf("%g, want 0", p)
	}
	if p := chains[0].chain.LossBy(0); p != 0 {
		t.Errorf("by the first hour: %g, want 0", p)
	}
}
