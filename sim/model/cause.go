package model

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/estimate"
)

// Cause is what ended a group, of a first loss: the rules stand in the doc of the
// package.
type Cause int

// The causes.
const (
	Waiting      Cause = iota // a failure while another failed drive of the group waits
	Rebuilding                // a failure while all failed drives of the group are in hand
	CommonCause               // a common-cause event
	Unreadable                // an unreadable sector, under stop
	SparesOut                 // as Waiting, where the choice has hot spares: none was free
	FirstFailure              // the failure of a drive in a group that tolerates none
	Causes                    // the number of causes
)

var causeNames = [Causes]string{
	Waiting: "waiting", Rebuilding: "rebuilding", CommonCause: "common cause",
	Unreadable: "unreadable", SparesOut: "spares out", FirstFailure: "first failure",
}

// String returns the cause in words.
func (c Cause) String() string { return causeNames[c] }

// ByCause is one number for each cause.
type ByCause [Causes]float64

// others returns the sum of all numbers but one.
func (x *ByCause) others(but Cause) (sum float64) {
	for c := range Causes {
		if c != but {
			sum += x[c]
		}
	}
	return sum
}

// CauseOfFailure returns the cause of a loss by the failure of a drive, which is no
// common-cause event: of a group of which another failed drive waits or none does.
func (s *System) CauseOfFailure(oneWaits bool) Cause {
	switch {
	case s.Tolerance == 0:
		return FirstFailure
	case !oneWaits:
		return Rebuilding
	case s.Spares > 0:
		return SparesOut
	}
	return Waiting
}

// CanBeLostBy reports whether a group can be lost by a cause at all.
func (s *System) CanBeLostBy(c Cause) bool {
	waits := s.Tolerance > 0 && s.Repair.Restore == nil && s.Repair.Notice.Mean()+s.Repair.Response.Mean() > 0
	switch c {
	case Waiting:
		return waits && s.Spares == 0
	case SparesOut:
		return waits && s.Spares > 0
	case Rebuilding:
		return s.Tolerance > 0 && (s.Repair.Restore != nil || s.Repair.Rebuild > 0)
	case CommonCause:
		return s.ShockRate > 0 && s.ShockChance > 0
	case Unreadable:
		return s.Tolerance > 0 && s.Stop && (s.ReadErrors > 0 || s.LatentRate > 0)
	}
	return s.Tolerance == 0
}

// causeProducts is the sums over batches of the products of the causes' parts in the
// loss chance with each other, of two causes the later one first.
type causeProducts struct {
	square, tiny [Causes][Causes]float64 // as in products
}

func (p *causeProducts) observe(x *ByCause) {
	for c, y := range x {
		if y == 0 {
			continue
		}
		tiny := y * (1 / tinyUnit)
		for d, z := range x[:c+1] {
			p.square[c][d] += y * z
			p.tiny[c][d] += tiny * (z * (1 / tinyUnit))
		}
	}
}

func (p *causeProducts) add(o *causeProducts) {
	for c := range p.square {
		for d := range c + 1 {
			p.square[c][d] += o.square[c][d]
			p.tiny[c][d] += o.tiny[c][d]
		}
	}
}

// over returns the sum for two causes ÷ (a·b), which are sums over lives.
func (p *causeProducts) over(c, d Cause, a, b float64) float64 {
	c, d = max(c, d), min(c, d)
	if square := p.square[c][d]; square >= tinySquare {
		return square / a / b
	}
	return p.tiny[c][d] / (a / tinyUnit) / (b / tinyUnit)
}

// Share returns the share of the loss chance that a cause makes, 0 to 1, as the ratio
// of two sums over lives. It is not known where no loss was seen.
//
// The interval is one of the log-odds x ÷ y, x the cause's sum and y that of all others:
// the variance of log x − log y follows from the sums of their squares and products over
// batches (the delta method). Of a cause that was not seen it is what that proportion of
// the effective samples leaves open, so its upper end is above 0; and no less of one that
// rests on so few batches that most of it may not have been seen.
func (f *Fit) Share(c Cause) estimate.Estimate {
	s := f.sums
	x, y := s.ByCause[c], s.ByCause.others(c)
	samples := s.EffectiveSamples()
	switch {
	case x+y == 0:
		return estimate.None()
	case s.Plain:
		return estimate.Proportion(x, x+y)
	case x == 0:
		return estimate.Proportion(0, samples)
	case y == 0:
		return estimate.Proportion(samples, samples)
	case f.batches < 2:
		return estimate.Proportion(samples*(x/(x+y)), samples)
	}
	ofCause, ofOthers, ofBoth := s.causes.over(c, c, x, x), 0.0, 0.0
	for d := range Causes {
		if d == c {
			continue
		}
		ofBoth += s.causes.over(c, d, x, y)
		for e := range Causes {
			if e != c {
				ofOthers += s.causes.over(d, e, y, y)
			}
		}
	}
	variance := math.Max(0, ofCause+ofOthers-2*ofBoth) * f.batches / (f.batches - 1)
	// What comes once in as many losses as there are may not have been seen.
	variance += 1 / (samples * samples)
	odds := elementary.Exp(estimate.Student95(math.Min(f.batches, samples)-1) * math.Sqrt(variance))
	e := estimate.Estimate{
		Value: x / (x + y), Low: x / (x + y*odds), High: x / (x + y/odds),
		RelativeError: math.Sqrt(variance) * (y / (x + y)),
	}
	// The effective number of batches is 1 ÷ the sum of squares.
	if ofCause > 1/leastBatches {
		e.High = math.Max(e.High, estimate.Proportion(0, samples).High)
	}
	if ofOthers > 1/leastBatches {
		e.Low = math.Min(e.Low, estimate.Proportion(samples, samples).Low)
	}
	return e
}

// leastBatches is the effective number of batches that tells a cause's part (common
// practice, no source).
const leastBatches = 50.0
