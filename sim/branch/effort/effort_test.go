package effort

import (
	"math"
	"testing"

	"arrayodds/sim/branch/commoncause"
	"arrayodds/sim/law"
	"arrayodds/sim/simtest"
)

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*want) {
		t.Errorf("%s: %.12g, should be %.12g", what, got, want)
	}
}

// By hand: 8 drives of 10^-5 per hour, 20 h to restore one, 40 000 h. A whole group passes
// 8·10^-5·20 in a stay, one with a drive down 7·10^-5·20. So of 3.2 failures a life 1.4e-3
// are followed by the second: all that there is to be done, but for common cause.
func TestEffort(t *testing.T) {
	t.Parallel()
	sys := simtest.OneGroup(8, 1, law.Constant{PerHour: 1e-5}, law.Fixed(20), 40000)
	e := Of(sys, nil)
	near(t, "failures per hour", e.Failure, 1e-5)
	near(t, "a whole group", e.Stay[0], 1.6e-3)
	near(t, "a drive down", e.Stay[1], 1.4e-3)
	near(t, "losses by failures", e.lostByForks(sys), 3.2*1.4e-3)
	near(t, "failures beside another", e.Seconds, 3.2*1.4e-3)
	near(t, "the share of them", e.ByFailures, 1)
	near(t, "branches", e.Branches, 4)

	// Every event strikes all: 40 of them are a loss each, 40 ÷ (10·3.2·1.4e-3) times too
	// many, and with those losses one branch serves.
	sys.ShockRate, sys.ShockChance = 1e-3, 1
	e = Of(sys, commoncause.New(8, 1, 1))
	near(t, "of losses by common cause", e.ByFailures, math.Sqrt(10*3.2*1.4e-3/40))
	near(t, "branches", e.Branches, 1)

	// Drives that wear out are replaced, and fail at the rate of their mean life.
	sys = simtest.OneGroup(8, 1, law.Weibull{Shape: 3, Scale: 1000}, law.Fixed(20), 40000)
	near(t, "failures of drives that wear out", Of(sys, nil).Failure, 1/(1000*math.Gamma(4.0/3)))
}

// Where the chances of branches add up to little, up to most are kept, 0.3 at the most; where
// they add up to more, one.
func TestKept(t *testing.T) {
	t.Parallel()
	for total, most := range map[float64]float64{0.001: 4, 0.1: 3, 0.6: 1, 20: 1} {
		near(t, "branches", Kept(total, 4)*total, most)
	}
}

// By hand: of forks with a chance of 1 in 1 000 four are followed, of 4 in 100 the 0.1 of them,
// and one of more.
func TestForks(t *testing.T) {
	t.Parallel()
	e := Effort{Branches: 4}
	for chance, most := range map[float64]float64{0.001: 4, 0.04: 2.5, 0.2: 1} {
		near(t, "forks", e.Forks(chance)*chance, most)
	}
}
