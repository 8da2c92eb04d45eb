package trace

import (
	"errors"
	"math"
	"slices"
	"sort"

	"arrayodds/array"
	"arrayodds/sim/model"
)

// A run has about rebuildSteps steps. The wait and the rebuild have minSteps of them
// at least, however short they are.
const (
	rebuildSteps = 40
	minSteps     = 8
)

// NewRebuild works out one outage of a group of a choice, for drives of other
// sizes (bytes, above 0) and for other waits (hours, 0 or more). There is no
// simulation in it, only closed forms, so nothing has an interval.
//
// A group of n drives that tolerates t has t down, one of them since hour 0. That
// drive is waited for, for one of waits, and then rebuilt for the time that the
// site's rebuild takes at the size ([array.Sizing.RebuildRun]); the others that are
// down are taken to stay down meanwhile. With a restore law, which is failure to
// restored in one, there is no wait, and the rebuild takes the law's mean whatever
// the size.
//
//   - Read grows evenly through the rebuild to n − t drives full.
//   - Unreadable is 1 − exp(−(defects + read errors)). The defects of the n − t
//     running drives are met at hour 0: as many as a scrub leaves on average, or
//     as have come in half a service life where nothing scrubs. Read errors grow
//     with what is read, 8·Read ÷ N expected.
//   - Further is 1 − exp(−hazard), of the n − t running drives over all hours so
//     far, each at the mean rate of its life over the service life times the
//     degraded multiplier to the power of t. An uncertain rate counts by its mean.
//
// Sizes and waits are put in order, each once, and the choice's own are put among
// them. Its own wait is the mean of notice and response, or none where it has hot
// spares. Where nothing is rebuilt (JBOD, RAID 0) the Rebuild is empty. Errors are
// sizes and waits out of range, and layouts that do not fit.
func NewRebuild(site array.Site, c array.Choice, capacities, waits []float64) (Rebuild, error) {
	var builder model.Builder
	sys, err := builder.System(site, c)
	if err != nil {
		return Rebuild{}, err
	}
	if sys.Tolerance == 0 {
		return Rebuild{}, nil
	}
	for _, x := range capacities {
		if !(x > 0) || math.IsInf(x, 1) {
			return Rebuild{}, errors.New("rebuild: the capacity of a drive must be above 0")
		}
	}
	for _, x := range waits {
		if !(x >= 0) || math.IsInf(x, 1) {
			return Rebuild{}, errors.New("rebuild: a wait must be 0 or more")
		}
	}
	if sys.Repair.Restore != nil {
		waits = nil
	}
	s := Rebuild{
		Capacities: ascending(append([]float64{c.Drive.Capacity}, capacities...)),
		Waits:      ascending(append([]float64{ownWait(sys)}, waits...)),
	}
	s.OwnSize = slices.Index(s.Capacities, c.Drive.Capacity)
	s.OwnWait = slices.Index(s.Waits, ownWait(sys))
	for _, wait := range s.Waits {
		for _, capacity := range s.Capacities {
			of := c
			of.Drive.Capacity = capacity
			sys, err := builder.System(site, of)
			if err != nil {
				return Rebuild{}, err
			}
			rebuild := sys.Repair.Rebuild
			if sys.Repair.Restore != nil {
				rebuild = sys.Repair.Restore.Mean()
			}
			s.Runs = append(s.Runs, rebuildRun(sys, capacity, wait, rebuild))
		}
	}
	return s, nil
}

// ascending returns x in order, each value once.
func ascending(x []float64) []float64 {
	x = slices.Clone(x)
	sort.Float64s(x)
	return slices.Compact(x)
}

// ownWait returns the mean hours from a failure until the new drive is in.
func ownWait(sys *model.System) float64 {
	if sys.Repair.Restore != nil || sys.Spares > 0 {
		return 0
	}
	return sys.Repair.Notice.Mean() + sys.Repair.Response.Mean()
}

// rebuildRun returns the outage of a system with that wait and that length of the
// rebuild, in hours.
func rebuildRun(sys *model.System, capacity, wait, rebuild float64) RebuildRun {
	running := float64(sys.Drives - sys.Tolerance)
	defects := running * sys.Defects(sys.Horizon/2)
	perHour := running * sys.Life.Cumulative(sys.Horizon) / sys.Horizon * sys.Degraded[sys.Tolerance]
	if sys.Uncertain > 0 {
		perHour *= sys.Uncertain
	}
	run := RebuildRun{Rebuild: rebuild, Exposed: wait + rebuild}
	step := func(hours, done float64) {
		run.Steps = append(run.Steps, RebuildStep{
			Hours:      hours,
			Done:       done,
			Read:       done * running * capacity,
			Unreadable: -math.Expm1(-(defects + done*sys.ReadErrors)),
			Further:    -math.Expm1(-perHour * hours),
		})
	}
	step(0, 0)
	n := rebuildSteps
	if wait > 0 {
		before := min(max(int(math.Round(rebuildSteps*wait/run.Exposed)), minSteps), rebuildSteps-minSteps)
		n -= before
		for i := 1; i <= before; i++ {
			step(wait*float64(i)/float64(before), 0)
		}
	}
	for i := 1; i <= n; i++ {
		done := float64(i) / float64(n)
		step(wait+done*rebuild, done)
	}
	return run
}
