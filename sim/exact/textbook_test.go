package exact

import (
	"fmt"
	"math"
	"testing"
)

// published fails where got does not round to a published figure, given with
// half of its last digit.
func published(t *testing.T, what string, got, want, half float64) {
	t.Helper()
	if !(math.Abs(got-want) <= half) {
		t.Errorf("%s: %.7g, published %g ± %g", what, got, want, half)
	}
}

// P1 to P4: Patterson, Gibson, Katz, "A Case for Redundant Arrays of Inexpensive
// Disks (RAID)", SIGMOD 1988: 100 data disks of 30 000 h, repair 1 h, in groups
// of G data and C check disks. Figures quoted from memory; they agree with the
// paper's formula to the digits given.
func TestPatterson1988(t *testing.T) {
	for _, c := range []struct {
		id                  string
		data, check, groups int
		mttf, half          float64
	}{
		{"P1, mirrors", 1, 1, 100, 4_500_000, 50},
		{"P2, one check disk, 10 data disks a group", 10, 1, 10, 820_000, 5_000},
		{"P3, one check disk, 25 data disks a group", 25, 1, 4, 346_000, 500},
		{"P4, Hamming groups", 10, 4, 10, 494_500, 50},
	} {
		// All of these layouts survive one failure: Hamming's further check
		// disks find the failed disk and restore no second one.
		b := Textbook{Drives: c.data + c.check, Tolerance: 1, MTTF: 30_000, MTTR: 1, DegradedFactor: 1}
		published(t, c.id, mttdl(b)/float64(c.groups), c.mttf, c.half)
	}
}

// C1 to C4: Chen, Lee, Gibson, Katz, Patterson, "RAID: High-Performance,
// Reliable Secondary Storage", ACM Computing Surveys 26(2), 1994, reliability
// tables: 100 data disks of 5 GB and 200 000 h, each next failure in a group ten
// times likelier (20 000 h, 2 000 h), repair 1 h, groups of 16, one bit error in
// 10^14. Figures quoted from memory; they agree with the paper's formulas to the
// digits given.
func TestChen1994(t *testing.T) {
	disk := Textbook{Drives: 16, MTTF: 200_000, MTTR: 1, DegradedFactor: 10, Capacity: 5e9, BitsPerError: 1e14}
	const year, tenYears = 8760.0, 87600.0

	single, groups := disk, 100.0/15
	single.Tolerance = 1
	published(t, "C1, years to a double disk failure", mttdl(single)/groups/year, 285, 0.5)
	without := single
	without.BitsPerError = 0
	published(t, "C1, % in 10 years", 100*without.LossChance(groups, tenYears), 3.4, 0.05)
	published(t, "C2, years to a disk failure and a bit error", 1/single.UnreadableLossPerHour()/groups/year, 36, 0.5)
	published(t, "C2, % in 10 years", -100*math.Expm1(-groups*tenYears*single.UnreadableLossPerHour()), 24.4, 0.05)

	double, groups := disk, 100.0/14
	double.Tolerance = 2
	published(t, "C3, years to a triple disk failure", mttdl(double)/groups/year, 38_052, 0.5)
	published(t, "C4, years to a double disk failure and a bit error", 1/double.UnreadableLossPerHour()/groups/year, 47_700, 50)
}

// E1, the textbook side: Elerath, Pecht, "Enhanced Reliability Modeling of RAID
// Storage Systems", DSN 2007 (DOI 10.1109/DSN.2007.41): 8 drives, single parity,
// 461 386 h and 12 h, 1 000 groups over 10 years. MTTDL quoted from memory, the
// number of double-disk failures derived from it.
func TestElerath2007(t *testing.T) {
	b := Textbook{Drives: 8, Tolerance: 1, MTTF: 461_386, MTTR: 12, DegradedFactor: 1}
	published(t, "E1, MTTDL in years", mttdl(b)/8760, 36_162, 0.5)
	published(t, "E1, double-disk failures", 1000*87600*b.FailureLossPerHour(), 0.277, 0.0005)
}

// T2, common practice, no source: a read of 12 TB at one error in 10^14 bits
// meets none with exp(−0.96), 0.383.
func TestReadWithoutError(t *testing.T) {
	b := Textbook{Drives: 2, Tolerance: 1, MTTF: 1000, MTTR: 1, DegradedFactor: 1, Capacity: 12e12, BitsPerError: 1e14}
	published(t, "T2", 1-b.UnreadableLossPerHour()*1000/2, 0.383, 0.0005)
	near(t, "T2", 1-b.UnreadableLossPerHour()*1000/2, math.Exp(-0.96), 1e-13)
}

// Where restores are short against lives and the first hours do not count, the
// formula and the chain are the same, for every tolerance. They part by the
// failure rate of the survivors × MTTR, 1e-9 at most here.
func TestTextbookIsTheChainsLimit(t *testing.T) {
	for tolerance := range 6 {
		for _, factor := range []float64{1, 3} {
			b := Textbook{Drives: 9, Tolerance: tolerance, MTTF: 1e6, MTTR: 1e-6, DegradedFactor: factor}
			c := Chain{Drives: 9, Tolerance: tolerance, FailurePerHour: 1e-6, RestorePerHour: 1e6, DegradedFactor: factor}
			near(t, fmt.Sprintf("tolerance %d, factor %g", tolerance, factor), b.LossChance(1, 87600), c.LossBy(87600), 1e-8)
		}
	}
}

// A tolerance of 16 multiplies 17 rates. By hand in powers of ten: 17 drives of
// 10^9 h and restores of 10^-3 h have the MTTDL 10^153 ÷ (17! · 10^-48), and 18
// of them, read after 16 failures, 18!/2! · 10^-144 · 10^-45 losses an hour
// where an error is certain.
func TestTextbookRange(t *testing.T) {
	b := Textbook{Drives: 17, Tolerance: 16, MTTF: 1e9, MTTR: 1e-3, DegradedFactor: 1}
	near(t, "rate", b.FailureLossPerHour()*1e153*1e48, math.Gamma(18), 1e-12)
	b.Drives, b.Capacity, b.BitsPerError = 18, 1e15, 1
	near(t, "unreadable", b.UnreadableLossPerHour()*1e144*1e45, math.Gamma(19)/2, 1e-12)
	if p := b.LossChance(1, 43800); !(p > 0 && p < 1e-160) {
		t.Errorf("loss chance %g", p)
	}
	b.MTTF, b.MTTR = 1, 1e6
	if p := b.LossChance(1000, 43800); p != 1 {
		t.Errorf("loss chance %g of drives that fail at once, want 1", p)
	}
}

// Without redundancy the first failure is the loss, nothing is rebuilt, and a
// repair time does not count.
func TestTextbookNoRedundancy(t *testing.T) {
	b := Textbook{Drives: 8, MTTF: 500e3, MTTR: 48, DegradedFactor: 1, Capacity: 12e12, BitsPerError: 1e14}
	near(t, "MTTDL", mttdl(b), 500e3/8, 1e-14)
	near(t, "loss chance", b.LossChance(3, 43800), -math.Expm1(-24*43800/500e3), 1e-14)
	near(t, "unreadable", b.UnreadableLossPerHour(), 0, 0)
	for _, none := range []float64{0, math.Inf(1)} {
		b.Tolerance, b.BitsPerError = 1, none
		near(t, "no read errors", b.LossPerHour(), b.FailureLossPerHour(), 0)
	}
}

// mttdl is the mean time to data loss of a group by failures of drives, in hours.
func mttdl(b Textbook) float64 { return 1 / b.FailureLossPerHour() }
