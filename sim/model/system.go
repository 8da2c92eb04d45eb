package model

import (
	"fmt"

	"arrayodds/array"
	"arrayodds/array/elementary"
	"arrayodds/array/unit"
	"arrayodds/sim/law"
)

// System is a choice, ready to be simulated. Hours and bytes throughout.
type System struct {
	Horizon float64 // service life
	// Start, where it is not nil, is the state in which lives begin.
	Start *Start
	// StepHours, above 0, asks for the chance of a first loss by the end of each step of
	// so many hours too ([Sums.Steps]).
	StepHours float64

	Sets         int
	GroupsPerSet int
	Drives       int // in a group
	Tolerance    int

	Life law.Life
	// Uncertain is the a of the Gamma(a) variate that multiplies every hazard
	// for a whole life; 0 where the rate is certain.
	Uncertain float64
	// Fitted, where it is not nil, gives a Life of its own to every simulated
	// life; Life is then the one at the estimates.
	Fitted *law.Fitted
	// Frailty is the variance of the Gamma variate with mean 1 that multiplies
	// the hazards of a batch; 0 for none.
	Frailty float64
	// Batches is how many batches the drives of time zero are dealt from in turn, so that
	// no group holds more of one than it must; up to 1 they are all of one batch.
	Batches int
	// Degraded[k] multiplies the hazard of the survivors with k drives down;
	// k from 0 to Tolerance.
	Degraded []float64

	Spares int
	Repair Repair

	Stop bool // an unreadable sector met without redundancy loses the group
	// LatentRate is defects per drive-hour; Scrub how long each stays, nil for
	// ever.
	LatentRate float64
	Scrub      law.Time
	// settled is hours after which all of a dwell is over, to the last digit of
	// its mean; 0 where that is not known.
	settled, meanDwell float64
	// ReadErrors is the unreadable sectors expected in one rebuild of a group
	// that is at its tolerance: 8 × running drives × capacity ÷ N.
	ReadErrors float64

	ShockRate   float64 // common-cause events per hour
	ShockChance float64 // that a running drive fails in one

	Footage Footage
}

// Repair is how a failed drive is restored.
type Repair struct {
	// Restore, where it is not nil, is failure to restored; the rest but
	// Parallel then does not count.
	Restore  law.Time
	Notice   law.Time
	Response Wait
	Restock  Wait
	Rebuild  float64 // hours
	Parallel bool
}

// Wait is a length of time that may depend on the hour of the week at which it
// begins.
type Wait struct {
	Law  law.Time
	Open *law.OpenHours // in place of Law, where it is not nil
	mean float64        // of Open
}

// Mean returns the mean length in hours, over a random hour of the week.
func (w Wait) Mean() float64 {
	if w.Open != nil {
		return w.mean
	}
	return w.Law.Mean()
}

// Mean returns the mean time from failure to restored in hours, without hot spares.
func (r *Repair) Mean() float64 {
	if r.Restore != nil {
		return r.Restore.Mean()
	}
	return r.Notice.Mean() + r.Response.Mean() + r.Rebuild
}

// Groups returns the number of groups in all sets.
func (s *System) Groups() int { return s.Sets * s.GroupsPerSet }

// SeveralBatches reports whether the drives of time zero differ by their batches.
func (s *System) SeveralBatches() bool { return s.Frailty > 0 && s.Batches > 1 }

// Batch returns the batch, counted from 0, of a place of all groups, counted from 0
// through the groups in turn.
func (s *System) Batch(place int) int { return place % max(1, s.Batches) }

// CanFail reports whether anything can fail within so many hours.
func (s *System) CanFail(hours float64) bool {
	return s.ShockRate > 0 || s.Life.Cumulative(hours) > 0 || s.Fitted != nil
}

// Defects returns the expected number of latent defects on one drive, so many hours
// after they were last cleared.
func (s *System) Defects(since float64) float64 {
	switch {
	case s.LatentRate == 0:
		return 0
	case s.Scrub == nil:
		return s.LatentRate * since
	case s.settled > 0 && since >= s.settled:
		return s.LatentRate * s.meanDwell
	}
	return s.LatentRate * s.Scrub.MeanWithin(since)
}

// New returns the system of a choice of a site. Errors are laws that it does not know
// and layouts that do not fit; a site that package site read without errors has none.
func New(site array.Site, c array.Choice) (*System, error) {
	return new(Builder).System(site, c)
}

// System returns the system of a choice of a site, as [New] does.
func (b *Builder) System(site array.Site, c array.Choice) (*System, error) {
	z, err := site.Size(c)
	if err != nil {
		return nil, fmt.Errorf("choice %q: %w", c.Label, err)
	}
	s := &System{
		Horizon:      site.ServiceLife,
		Sets:         z.Shape.Sets,
		GroupsPerSet: z.Shape.GroupsPerSet,
		Drives:       z.Shape.DrivesInGroup,
		Tolerance:    z.Shape.Tolerance,
		Frailty:      c.Drive.BatchVariance,
		Batches:      c.Batches,
		Spares:       c.HotSpares,
		Stop:         c.Care.Stop,
		ShockRate:    site.Hazards.CommonPerYear / unit.HoursPerYear,
		ShockChance:  site.Hazards.CommonEachDrive,
	}
	if s.Life, s.Uncertain, err = law.OfLife(c.Drive.Life, c.Drive.HazardMultiplier); err != nil {
		return nil, err
	}
	s.Fitted = law.OfFitted(c.Drive.Life, c.Drive.HazardMultiplier)
	for k := 0; k <= s.Tolerance; k++ {
		s.Degraded = append(s.Degraded, elementary.Pow(site.Hazards.DegradedMultiplier, float64(k)))
	}
	if s.ShockChance == 0 || s.ShockRate == 0 {
		s.ShockRate, s.ShockChance = 0, 0
	}
	if s.Repair, err = b.repair(c.Care, z.RebuildRun); err != nil {
		return nil, err
	}
	if !z.Shape.Rebuilds() {
		s.Spares = 0 // nothing would be rebuilt onto them
	} else {
		if err := s.unreadable(c); err != nil {
			return nil, err
		}
	}
	s.Footage = NewFootage(site, z, c, s.Horizon)
	return s, nil
}

// settle finds how long it takes until a dwell is over. In the middle of a life it
// mostly is, and the mean within a time takes long to compute for some laws.
func (s *System) settle() {
	mean := s.Scrub.Mean()
	for hours := mean; hours < s.Horizon; hours *= 2 {
		if s.Scrub.MeanWithin(hours) >= mean {
			s.settled, s.meanDwell = hours, mean
			return
		}
	}
}

// unreadable fills in what concerns unreadable sectors.
func (s *System) unreadable(c array.Choice) (err error) {
	if m := c.Drive.LatentMean; m > 0 {
		s.LatentRate = 1 / m
	}
	if c.Care.Scrub != nil && s.LatentRate > 0 { // else it has nothing to find
		if s.Scrub, err = law.OfTime(c.Care.Scrub); err != nil {
			return err
		}
		s.settle()
	}
	if n := c.Drive.ReadErrorBits; n > 0 {
		s.ReadErrors = 8 * float64(s.Drives-s.Tolerance) * c.Drive.Capacity / n
	}
	return nil
}

// repair returns how a failed drive of a choice is restored, with the length of a
// rebuild in hours.
func (b *Builder) repair(c array.Care, rebuild float64) (r Repair, err error) {
	r = Repair{Rebuild: rebuild, Parallel: c.Parallel}
	if c.Restore != nil {
		if r.Restore, err = law.OfTime(c.Restore); err != nil {
			return r, err
		}
	}
	if r.Notice, err = law.OfTime(c.Notice); err != nil {
		return r, err
	}
	if r.Response, err = b.wait(c.Response); err != nil {
		return r, err
	}
	r.Restock, err = b.wait(c.Restock)
	return r, err
}
