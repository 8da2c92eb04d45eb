package sim

import (
	"context"
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"
	"arrayodds/sim/engine"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// Published figures, computed by the engine. What the formulas of the same
// sources give is checked in package exact; here the same settings are
// simulated, and where the two part the reason is derived beside the check.
//
// A simulated figure must lie within four standard errors of what it should be,
// and the published one within that and what the source left out or rounded.

// withinErrors is how many standard errors a simulated figure may be off.
const withinErrors = 4

// simulated is a mean over a life and its standard error.
type simulated struct{ value, se float64 }

func (s simulated) times(x float64) simulated { return simulated{s.value * x, s.se * x} }

// inverse has the relative error of s.
func (s simulated) inverse() simulated {
	return simulated{1 / s.value, s.se / (s.value * s.value)}
}

// partShare is how many times fewer lives are simulated without make thorough.
const partShare = 4

// lives simulates so many lives of a system; with -short fewer.
func lives(t *testing.T, sys *model.System, trials int, seed uint64) func(model.Quantity) simulated {
	t.Helper()
	if !thorough.Asked() {
		trials /= partShare
	}
	s, _, err := engine.Simulate(context.Background(), sys, engine.Options{Seed: seed, Accuracy: -1, MaxTrials: int64(trials)})
	if err != nil {
		t.Fatal(err)
	}
	return func(q model.Quantity) simulated {
		e := model.NewFit(s).Estimate(q)
		return simulated{e.Value, e.Value * e.RelativeError}
	}
}

// agrees fails where got is further from want than its standard errors and what
// is allowed beside them, in absolute figures. A figure so rough that it would
// agree with anything fails too.
func agrees(t *testing.T, what string, got simulated, want, beside float64) {
	t.Helper()
	t.Logf("%-64s %.6g ± %.2g (one standard error), expected %.6g ± %.2g", what, got.value, got.se, want, beside)
	if !(math.Abs(got.value-want) <= withinErrors*got.se+beside) {
		t.Errorf("%s: simulated %.6g ± %.2g, expected %.6g ± %.2g", what, got.value, got.se, want, beside)
	}
	most := 0.02
	if !thorough.Asked() {
		most *= math.Sqrt(partShare)
	}
	if !(got.se <= most*math.Abs(got.value)) {
		t.Errorf("%s: the standard error %.2g of %.6g shows nothing", what, got.se, got.value)
	}
}

// array1988 is groups of drives with one check disk's worth of redundancy,
// 30 000 h each, repaired in 1 h, over 5 years.
func array1988(drives, groups int) *model.System {
	s := simtest.OneGroup(drives, 1, law.Constant{PerHour: 1.0 / 30000}, law.Exponential(1), 43800)
	s.Sets = groups
	return s
}

// P1 to P4: Patterson, Gibson, Katz, "A Case for Redundant Arrays of Inexpensive
// Disks (RAID)", SIGMOD 1988; figures quoted from memory. 100 data disks of
// 30 000 h with a repair of 1 h. Hours ÷ losses in an array of that many groups
// is the mean time to a loss.
//
// The formula leaves out that disks under repair cannot fail, and that a second
// failure is none once the first is repaired: both of order n × repair ÷ life,
// together at most 2n/30 000 of the figure. The published figures are rounded to
// half of their last digit.
func TestEngineOfPatterson1988(t *testing.T) {
	for i, c := range []struct {
		id             string
		drives, groups int
		mttf, half     float64
	}{
		{"P1, mirrors: hours to a loss", 2, 100, 4_500_000, 50},
		{"P2, groups of 10 and 1: hours to a loss", 11, 10, 820_000, 5_000},
		{"P3, groups of 25 and 1: hours to a loss", 26, 4, 346_000, 500},
		{"P4, groups of 10 and 4: hours to a loss", 14, 10, 494_500, 50},
	} {
		sys := array1988(c.drives, c.groups)
		events := lives(t, sys, 33000/c.groups, uint64(i+1))(model.LossEvents)
		got := events.inverse().times(sys.Horizon)
		agrees(t, c.id, got, c.mttf, c.half+c.mttf*2*float64(c.drives)/30000)
	}
}

// chen is a group of 16 with the disks of 1994: 200 000 h, then 20 000 h and
// 2 000 h as others fail; 10 years.
func chen(tolerance int, restore law.Time) *model.System {
	s := simtest.OneGroup(16, tolerance, law.Constant{PerHour: 1.0 / 200000}, restore, 87600)
	for k := range s.Degraded {
		s.Degraded[k] = math.Pow(10, float64(k))
	}
	return s
}

// chenReads adds the reads of 5 GB disks at one error in 10^14 bits. Disks do
// not fail while a rebuild has no redundancy left, so that every loss is by an
// unreadable sector.
func chenReads(tolerance int, restore law.Time) *model.System {
	s := chen(tolerance, restore)
	s.Stop = true
	s.ReadErrors = 8 * float64(16-tolerance) * 5e9 / 1e14
	s.Degraded[tolerance] = 0
	return s
}

// yearsToLoss is the mean time to a loss in so many groups, from one group.
func yearsToLoss(events simulated, groups float64) simulated {
	return events.inverse().times(10 / groups)
}

// percentOfTen is the chance in 10 years that is published beside it.
func percentOfTen(events simulated, groups float64) simulated {
	x := groups * events.value
	return simulated{-100 * math.Expm1(-x), 100 * math.Exp(-x) * groups * events.se}
}

// C1 to C4: Chen, Lee, Gibson, Katz, Patterson, "RAID: High-Performance, Reliable
// Secondary Storage", ACM Computing Surveys 26(2), 1994, reliability tables;
// figures quoted from memory. 100 data disks in groups of 16, repair 1 h. The
// groups are not whole (106.67 disks in groups of 16), so one group is simulated
// and its losses multiplied.
//
// The formulas put the chance of a further failure in the repair at its rate
// times its length, which is off by half of that for a fixed length and by all
// of it for an exponential one: 15/20 000 and 14/2 000 at the most. Disks out of
// work in repairs take off 16/200 000 more.
const (
	chenGroups5 = 100.0 / 15
	chenGroups6 = 100.0 / 14
	chenOff1    = 15.0/20000 + 16.0/200000
	chenOff2    = 14.0/2000 + 2*chenOff1
)

func TestEngineOfChen1994SingleParity(t *testing.T) {
	for i, restore := range []law.Time{law.Fixed(1), law.Exponential(1)} {
		kind := []string{"fixed repair", "exponential repair"}[i]

		// C1: a window of 1 h in the mean, and its form does not matter.
		double := lives(t, chen(1, restore), 33000, uint64(10+i))(model.LossEvents)
		agrees(t, "C1, years to a double disk failure, "+kind, yearsToLoss(double, chenGroups5), 285, 0.5+285*chenOff1)
		agrees(t, "C1, % in 10 years, "+kind, percentOfTen(double, chenGroups5), 3.4, 0.05+3.4*chenOff1)

		// C2: one whole rebuild reads 15 disks, whatever its length.
		unread := lives(t, chenReads(1, restore), 33000, uint64(20+i))(model.LossEvents)
		agrees(t, "C2, years to a disk failure and a bit error, "+kind, yearsToLoss(unread, chenGroups5), 36, 0.5)
		agrees(t, "C2, % in 10 years, "+kind, percentOfTen(unread, chenGroups5), 24.4, 0.05+24.4*chenOff1)

		// Both causes at once add up, but that a repair can be ended once only.
		both := chenReads(1, restore)
		both.Degraded[1] = 10
		all := lives(t, both, 33000, uint64(30+i))(model.LossEvents)
		sum := simulated{double.value + unread.value, math.Hypot(double.se, unread.se)}
		apart := simulated{all.value - sum.value, math.Hypot(all.se, sum.se)}
		if math.Abs(apart.value) > withinErrors*apart.se+sum.value*chenOff1 {
			t.Errorf("both causes lose %.6g groups, each alone together %.6g ± %.2g", all.value, sum.value, apart.se)
		}
	}
}

// C3: the formula has repair², which is the window in which two failures meet
// where one repair runs at a time and is exponential. In general a second
// failure falls into a repair of length τ at a uniform time, and what is left
// of it is open for the third: E[τ²]/2, of which repair² is the exponential's
// and repair²/2 that of a fixed length. So with a fixed repair of 1 h the mean
// time to a loss is twice the published one.
func TestEngineOfChen1994TripleFailure(t *testing.T) {
	const published, half = 38_052, 0.5
	events := lives(t, chen(2, law.Exponential(1)), 66000, 40)(model.LossEvents)
	agrees(t, "C3, years to a triple disk failure, exponential repair", yearsToLoss(events, chenGroups6), published, half+published*chenOff2)

	events = lives(t, chen(2, law.Fixed(1)), 66000, 41)(model.LossEvents)
	agrees(t, "C3, the same, fixed repair: twice as long", yearsToLoss(events, chenGroups6), 2*published, half+2*published*chenOff2)
}

// C4: the formula lets every double failure be followed by a whole read of 14
// disks without redundancy. That is what happens where the hour of repair is a
// wait for the new disk and the rebuild is short: then the first of two disks is
// always rebuilt with the other one missing.
//
// Where the hour is the rebuild itself, the second failure finds it at a uniform
// share u of its length, only 1 − u is left to read without redundancy, and the
// second rebuild has the first disk back. Of e = 0.0056 errors in a whole read
// that leaves 1 − (1 − exp(−e))/e, half of 1 − exp(−e) or so: the mean time to a
// loss is twice the published one, whatever the form of the repair law.
func TestEngineOfChen1994DoubleFailureAndBitError(t *testing.T) {
	const published, half = 47_700, 50
	wait := chenReads(2, nil)
	wait.Repair = model.Repair{
		Notice: law.Fixed(1), Response: model.Wait{Law: law.Fixed(0)}, Restock: model.Wait{Law: law.Fixed(0)},
		Rebuild: 1e-4,
	}
	events := lives(t, wait, 66000, 50)(model.LossEvents)
	agrees(t, "C4, years to a double disk failure and a bit error, wait", yearsToLoss(events, chenGroups6), published, half+published*chenOff2)

	const e = 0.0056
	whole, left := -math.Expm1(-e), 1+math.Expm1(-e)/e
	for i, restore := range []law.Time{law.Fixed(1), law.Exponential(1)} {
		kind := []string{"fixed rebuild", "exponential rebuild"}[i]
		events := lives(t, chenReads(2, restore), 66000, uint64(51+i))(model.LossEvents)
		want := published * whole / left
		agrees(t, "C4, the same, "+kind+": twice as long", yearsToLoss(events, chenGroups6), want, 2*half+want*chenOff2)
	}
}

// T2, common practice, no source: 12 TB read at one error in 10^14 bits meet
// none with a chance of exp(−0.96), 0.383. A mirrored pair whose survivors do
// not fail finishes that share of its rebuilds; the others are losses.
func TestEngineReadsTwelveTerabytes(t *testing.T) {
	site, choice := simtest.OftenFailing()
	mirrored(&choice)
	sys, err := model.New(site, choice)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(sys.ReadErrors-0.96) > 1e-15 {
		t.Errorf("T2: %v unreadable sectors in a rebuild, want 0.96", sys.ReadErrors)
	}
	sys.Life, sys.Repair = law.Constant{PerHour: 1.0 / 10000}, model.Repair{Restore: law.Exponential(1)}
	sys.Degraded[1] = 0
	sys.Horizon = 50000
	counts := lives(t, sys, 66000, 60)
	rebuilds, failures := counts(model.Rebuilds), counts(model.Failures)
	ratio := rebuilds.value / failures.value
	got := simulated{ratio, ratio * math.Hypot(rebuilds.se/rebuilds.value, failures.se/failures.value)}
	// A rebuild that the end cuts off: 1 h in 50 000 at most.
	agrees(t, "T2, share of rebuilds without an error", got, 0.383, 0.0005+1.0/50000)
	losses := counts(model.LossEvents)
	lost := losses.value / failures.value
	agrees(t, "T2, share of rebuilds with one", simulated{lost, lost * math.Hypot(losses.se/losses.value, failures.se/failures.value)},
		-math.Expm1(-0.96), 1.0/50000)
}

// mirrored makes a choice one pair of 12 TB drives with one error in 10^14 bits.
func mirrored(c *array.Choice) {
	c.Layout = array.Layout{Level: array.RAID1}
	c.Drives, c.Groups = 2, 1
	c.Drive.Capacity, c.Drive.ReadErrorBits = 12e12, 1e14
	c.Care.Stop = true
}
