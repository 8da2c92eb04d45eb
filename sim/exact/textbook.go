package exact

import (
	"math"

	"arrayodds/array/elementary"
)

// Textbook is a group of drives as the closed formulas have it: failures at a
// constant rate, restores that are short against the time between failures, and
// one at a time.
type Textbook struct {
	Drives    int // in the group, above Tolerance
	Tolerance int // drives that may be down without loss, 0 or more

	MTTF float64 // hours, of one drive, above 0
	MTTR float64 // hours from failure to restored, above 0 where Tolerance is

	// DegradedFactor m makes the failure rate of the others m^k times as high
	// while k drives are down. 1 is none, and so is 0.
	DegradedFactor float64

	Capacity     float64 // bytes of one drive
	BitsPerError float64 // bits read for each unreadable sector met; 0 or +Inf for none
}

// FailureLossPerHour returns the rate of losses by failures of drives alone, 1 ÷ MTTDL
// with the mean time to data loss, in hours,
//
//	MTTF^(t+1) ÷ (n(n−1)…(n−t) · MTTR^t)
//
// for n drives that tolerate t failures and a DegradedFactor of 1: Patterson,
// Gibson, Katz, "A Case for Redundant Arrays of Inexpensive Disks (RAID)",
// SIGMOD 1988, for t = 1, and Chen, Lee, Gibson, Katz, Patterson, "RAID:
// High-Performance, Reliable Secondary Storage", ACM Computing Surveys 26(2),
// 1994, for t = 2.
func (b Textbook) FailureLossPerHour() float64 { return elementary.Exp(b.logFailures(b.Tolerance + 1)) }

// UnreadableLossPerHour returns the rate at which t failures, each before the one
// before it is restored, are followed by an unreadable sector while the n − t drives
// left are read,
//
//	n(n−1)…(n−t+1) · MTTR^(t−1) ÷ MTTF^t · (1 − exp(−8·(n−t)·Capacity ÷ BitsPerError)),
//
// as in Chen and others, 1994, for t of 1 and 2. It is 0 for t = 0, where
// nothing is rebuilt.
func (b Textbook) UnreadableLossPerHour() float64 {
	if b.Tolerance == 0 || b.BitsPerError == 0 {
		return 0
	}
	met := -math.Expm1(-8 * float64(b.Drives-b.Tolerance) * b.Capacity / b.BitsPerError)
	return elementary.Exp(b.logFailures(b.Tolerance)) * met
}

// LossPerHour returns the sum of both rates.
func (b Textbook) LossPerHour() float64 {
	return b.FailureLossPerHour() + b.UnreadableLossPerHour()
}

// LossChance returns the chance that any of so many groups is lost within so many
// hours, by both causes. Groups need not be whole: published examples are not.
func (b Textbook) LossChance(groups, hours float64) float64 {
	return -math.Expm1(-groups * hours * b.LossPerHour())
}

// logFailures returns the logarithm of the rate per hour at which so many failures
// come, each before the one before it is restored. In logarithms, because 17 factors
// of a rate leave the range of a float64.
func (b Textbook) logFailures(failures int) float64 {
	log := 0.0
	for down := range failures {
		log += math.Log(float64(b.Drives-down) / b.MTTF * degraded(b.DegradedFactor, down))
	}
	if failures > 1 {
		log += float64(failures-1) * math.Log(b.MTTR)
	}
	return log
}
