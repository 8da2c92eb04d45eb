package exact

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// near fails where got is not want to a relative tolerance.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if got == want {
		return
	}
	if d := math.Abs(got-want) / math.Abs(want); !(d <= tolerance) {
		t.Errorf("%s = %.15g, want %.15g (off by %.2g of it, allowed %.2g)", what, got, want, d, tolerance)
	}
}

const fiveYears = 5 * 8760

// usual is MTBF 500 000 h and exponential restores of 48 h, one at a time.
func usual(drives, tolerance int) Chain {
	return Chain{Drives: drives, Tolerance: tolerance, FailurePerHour: 1 / 500e3, RestorePerHour: 1.0 / 48, DegradedFactor: 1}
}

var chains = []struct {
	name  string
	chain Chain
	hours float64
}{
	{"8 drives, 1", usual(8, 1), fiveYears},
	{"8 drives, 3", usual(8, 3), fiveYears},
	{"8 drives, 4", usual(8, 4), fiveYears},
	{"12 drives, 5", usual(12, 5), fiveYears},
	{"24 drives, 4", usual(24, 4), fiveYears},
	{"100 drives, 3", usual(100, 3), fiveYears},
	{"parallel", Chain{Drives: 14, Tolerance: 4, FailurePerHour: 2e-6, RestorePerHour: 0.05, Parallel: true, DegradedFactor: 1}, fiveYears},
	{"degraded", Chain{Drives: 10, Tolerance: 3, FailurePerHour: 1e-6, RestorePerHour: 0.1, DegradedFactor: 10}, 87600},
	{"degraded, parallel", Chain{Drives: 10, Tolerance: 3, FailurePerHour: 1e-6, RestorePerHour: 0.1, Parallel: true, DegradedFactor: 3}, 87600},
	{"shocks", Chain{Drives: 9, Tolerance: 3, FailurePerHour: 1e-6, RestorePerHour: 0.04, DegradedFactor: 1, ShockPerHour: 1e-5, ShockChance: 0.01}, fiveYears},
	{"shocks, rare and deadly", Chain{Drives: 24, Tolerance: 2, FailurePerHour: 1e-6, RestorePerHour: 0.04, Parallel: true, DegradedFactor: 2, ShockPerHour: 1e-9, ShockChance: 0.7}, fiveYears},
	{"shocks that take all", Chain{Drives: 6, Tolerance: 2, FailurePerHour: 1e-6, RestorePerHour: 0.04, DegradedFactor: 1, ShockPerHour: 1e-8, ShockChance: 1}, fiveYears},
	{"a short mission", usual(8, 2), 1},
	{"worn out", Chain{Drives: 6, Tolerance: 2, FailurePerHour: 1e-3, RestorePerHour: 1e-3, DegradedFactor: 1}, 2000},
	{"surely lost", Chain{Drives: 6, Tolerance: 1, FailurePerHour: 1e-2, RestorePerHour: 1e-3, DegradedFactor: 1}, 20000},
	{"never restored", Chain{Drives: 12, Tolerance: 4, FailurePerHour: 1e-6, DegradedFactor: 1}, fiveYears},
	{"tolerance 16", usual(40, 16), fiveYears},
	// Restore rate × life of 1e9: the chain moves far faster than it loses.
	{"stiff", Chain{Drives: 8, Tolerance: 2, FailurePerHour: 2e-6, RestorePerHour: 1e9 / fiveYears, DegradedFactor: 1}, fiveYears},
	{"stiff, tolerance 3, parallel", Chain{Drives: 20, Tolerance: 3, FailurePerHour: 1e-5, RestorePerHour: 1e9 / fiveYears, Parallel: true, DegradedFactor: 1}, fiveYears},
	{"stiff, 1", Chain{Drives: 2, Tolerance: 1, FailurePerHour: 1, RestorePerHour: 1e9, DegradedFactor: 1}, 1},
}

// To the last digits but a few, from 1 down to 1e-40, against 700 bits.
func TestLossByAgainstTaylor(t *testing.T) {
	for _, c := range chains {
		want := byTaylor(t, c.chain, c.hours)
		near(t, c.name, c.chain.LossBy(c.hours), want, 1e-12)
	}
}

// Against gonum v0.17.0's matrix exponential, to what that keeps: 1e-16 as
// against 1, more where the chain is stiff.
func TestLossByAgainstGonum(t *testing.T) {
	compared := 0
	for _, c := range chains {
		got := c.chain.LossBy(c.hours)
		if got < 1e-6 || c.chain.RestorePerHour*c.hours > 1e6 {
			continue
		}
		compared++
		near(t, c.name, got, byGonum(c.chain, c.hours), 1e-8)
	}
	if compared < 5 {
		t.Errorf("only %d chains have a loss chance that gonum can tell", compared)
	}
}

// By scipy 1.10.1: linalg.expm of the generator, entry (0, loss), shocks by
// stats.binom.pmf.
func TestLossByAgainstScipy(t *testing.T) {
	for _, c := range []struct {
		chain Chain
		hours float64
		want  float64
	}{
		{Chain{Drives: 6, Tolerance: 2, FailurePerHour: 1e-3, RestorePerHour: 0.02, DegradedFactor: 1}, 2000, 0.292781709239},
		{Chain{Drives: 6, Tolerance: 2, FailurePerHour: 1e-3, RestorePerHour: 0.02, Parallel: true, DegradedFactor: 2, ShockPerHour: 1e-4, ShockChance: 0.2}, 2000, 0.699407838066},
		{Chain{Drives: 12, Tolerance: 3, FailurePerHour: 1e-4, RestorePerHour: 0.01, Parallel: true, DegradedFactor: 4}, 8760, 0.710109665518},
	} {
		near(t, fmt.Sprintf("%+v", c.chain), c.chain.LossBy(c.hours), c.want, 1e-11)
	}
}

// Figures of an independent implementation of the chain, to the digits that it
// gave: MTBF 500 000 h, exponential restores of 48 h one at a time, 5 years.
func TestLossByFigures(t *testing.T) {
	for _, c := range []struct {
		drives, tolerance int
		want              float64
		digit             float64 // half of the last one
	}{
		{8, 1, 4.696e-4, 0.0005e-4},
		{8, 2, 2.703e-7, 0.0005e-7},
		{8, 3, 1.2961e-10, 0.00005e-10},
		{8, 4, 4.972e-14, 0.0005e-14},
		{24, 2, 9.739e-6, 0.0005e-6},
		{24, 4, 3.762e-11, 0.0005e-11},
		{100, 2, 7.665e-4, 0.0005e-4},
		{100, 3, 7.133e-6, 0.0005e-6},
	} {
		if got := usual(c.drives, c.tolerance).LossBy(fiveYears); math.Abs(got-c.want) > c.digit {
			t.Errorf("%d drives, tolerance %d: %.6g, want %g", c.drives, c.tolerance, got, c.want)
		}
	}
}

// Without redundancy the first failure is the loss, exponentially.
func TestLossByNoRedundancy(t *testing.T) {
	for _, drives := range []int{1, 8, 1000} {
		c := Chain{Drives: drives, FailurePerHour: 2e-6, RestorePerHour: 0.1, DegradedFactor: 7}
		near(t, fmt.Sprintf("%d drives", drives), c.LossBy(fiveYears), -math.Expm1(-float64(drives)*2e-6*fiveYears), 1e-13)
	}
	// A shock takes any of the drives with 1 − (1 − q)^n.
	c := Chain{Drives: 8, ShockPerHour: 1e-5, ShockChance: 0.2}
	near(t, "shocks", c.LossBy(fiveYears), -math.Expm1(-1e-5*fiveYears*(1-math.Pow(0.8, 8))), 1e-13)
}

// Without restores the drives fail apart from each other, and a group is lost
// when more than t of its n are: gonum's binomial law.
func TestLossByNeverRestored(t *testing.T) {
	for _, tolerance := range []int{0, 1, 3, 7} {
		c := Chain{Drives: 12, Tolerance: tolerance, FailurePerHour: 3e-6, DegradedFactor: 1}
		failed := -math.Expm1(-3e-6 * fiveYears)
		want := 0.0
		for k := tolerance + 1; k <= 12; k++ {
			want += distuv.Binomial{N: 12, P: failed}.Prob(float64(k))
		}
		near(t, fmt.Sprintf("tolerance %d", tolerance), c.LossBy(fiveYears), want, 1e-12)
	}
	// With shocks alone: after s of them each drive has failed with 1 − (1−q)^s.
	c := Chain{Drives: 12, Tolerance: 3, ShockPerHour: 1e-4, ShockChance: 0.05}
	events, want := distuv.Poisson{Lambda: 1e-4 * fiveYears}, 0.0
	for s := range 60 {
		failed := distuv.Binomial{N: 12, P: 1 - math.Pow(0.95, float64(s))}
		for k := 4; k <= 12 && s > 0; k++ {
			want += events.Prob(float64(s)) * failed.Prob(float64(k))
		}
	}
	near(t, "shocks alone", c.LossBy(fiveYears), want, 1e-12)
}

func TestLossByNothing(t *testing.T) {
	for _, c := range []Chain{
		{Drives: 8, Tolerance: 1, RestorePerHour: 0.1, DegradedFactor: 1},
		{Drives: 8, Tolerance: 1, DegradedFactor: 1},
		{Drives: 8, Tolerance: 1, DegradedFactor: 1, ShockPerHour: 1},
	} {
		if p := c.LossBy(fiveYears); p != 0 {
			t.Errorf("%+v: %g, want 0", c, p)
		}
	}
	if p := usual(8, 1).LossBy(0); p != 0 {
		t.Errorf("by the first hour: %g, want 0", p)
	}
	one, none := usual(8, 2), usual(8, 2)
	none.DegradedFactor = 0
	if a, b := one.LossBy(fiveYears), none.LossBy(fiveYears); a != b {
		t.Errorf("a degraded factor of 1 gives %g, one of 0 %g", a, b)
	}
}

// Big groups and shocks: a chance of a loss is never below 0 or above 1, nor
// anything but a number.
func TestLossByExtremes(t *testing.T) {
	for _, c := range []Chain{
		{Drives: 10000, Tolerance: 16, FailurePerHour: 1e-5, RestorePerHour: 0.01, DegradedFactor: 1000, ShockPerHour: 0.1, ShockChance: 0.9},
		{Drives: 10000, Tolerance: 16, FailurePerHour: 1e-12, RestorePerHour: 1e4, Parallel: true, DegradedFactor: 1, ShockPerHour: 1e-9, ShockChance: 1e-9},
		{Drives: 17, Tolerance: 16, FailurePerHour: 1e-9, RestorePerHour: 100, DegradedFactor: 1},
	} {
		p := c.LossBy(50 * 8760)
		if !(p > 0 && p <= 1) {
			t.Errorf("%+v: %g", c, p)
		}
	}
}

func TestAnyOf(t *testing.T) {
	near(t, "any of 3 with 0.1", AnyOf(3, 0.1), 1-0.9*0.9*0.9, 1e-15)
	near(t, "any of 50 with 1e-15", AnyOf(50, 1e-15), 50e-15, 1e-13)
	near(t, "any of 2 that are lost", AnyOf(2, 1), 1, 0)
	near(t, "any of 10 that are safe", AnyOf(10, 0), 0, 0)
}
