package model

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"
)

// StripeUnit is the bytes that are lost where a rebuild skips an unreadable
// sector: 512 KiB (from memory, common practice).
const StripeUnit = 512 << 10

// Footage is the camera groups as the ring holds them. Amounts are
// camera-hours: hours of footage of one camera. Times while footage is missing
// although it is due are camera-hours × hours.
type Footage struct {
	groups  []stored
	horizon float64
	sets    float64
	longest float64 // of what is held: how far back a loss can reach

	// What a stripe unit costs in the middle of a life, when the ring is full and
	// nothing held outlives the horizon: always the same.
	midDestroyed, midMissing float64
	// What all of a full ring costs then.
	fullDestroyed, fullMissing float64

	Retention float64 // the longest that is due; 0 without cameras
	Due       float64 // camera-hours × hours that are due over the horizon
	Short     float64 // of Due, what the ring is too small for
	Gap       float64 // of Due, what the recorder does not record, swaps left out
	Gaps      Gaps    // what Gap is made of
	PerSwap   float64 // the same for each drive that is replaced
}

// Gaps is the parts of a gap: of what is due, what is not recorded because of the
// power supply, of the system disk and of the mains.
type Gaps struct{ Power, SystemDisk, Mains float64 }

type stored struct {
	rate  float64 // camera-hours recorded an hour
	bytes float64 // written an hour
	unit  float64 // camera-hours in a stripe unit
	held  float64 // hours back that the ring reaches
}

// NewFootage returns what a choice holds of the cameras' footage, and what is due over
// the horizon, in hours.
func NewFootage(site array.Site, z array.Sizing, c array.Choice, horizon float64) Footage {
	f := Footage{horizon: horizon, sets: float64(z.Shape.Sets)}
	for i, cam := range site.Cameras {
		g := stored{
			rate:  float64(cam.Count) * cam.Recorded(),
			bytes: cam.WriteRate() * 3600,
			unit:  StripeUnit / (cam.BitRate / 8 * 3600),
			held:  z.Held[i],
		}
		f.groups = append(f.groups, g)
		f.longest = math.Max(f.longest, g.held)
		f.Retention = math.Max(f.Retention, cam.Retention)
		due := rise(cam.Retention, horizon)
		f.Due += g.rate * due
		f.Short += g.rate * (due - rise(g.held, horizon))
	}
	// What is not recorded is missing for as long as it is due, so a gap's share
	// of the hours is its share of what is due.
	f.Gap = f.Due * c.Recorder.GapHoursPerYear(0) / unit.HoursPerYear
	perHour := f.Due / unit.HoursPerYear
	supply, systemDisk, mains := c.Recorder.Gaps()
	f.Gaps = Gaps{perHour * supply, perHour * systemDisk, perHour * mains}
	if c.Recorder != nil {
		f.PerSwap = f.Due * c.Recorder.SwapDown / horizon
	}
	f.midDestroyed, f.midMissing = f.stripe(f.longest)
	f.fullDestroyed, f.fullMissing = f.lossBetween(f.longest, 0, f.longest, 1)
	return f
}

// rise returns ∫ min(r, t) dt over t from 0 to h.
func rise(r, h float64) float64 {
	if h <= r {
		return h * h / 2
	}
	return r * (h - r/2)
}

// Ring is what is held of one camera group.
type Ring struct {
	Rate float64 // camera-hours recorded an hour
	Held float64 // hours back that its footage reaches once the ring is full
}

// Rings returns the camera groups in the order of the site.
func (f *Footage) Rings() []Ring {
	rings := make([]Ring, len(f.groups))
	for i, g := range f.groups {
		rings[i] = Ring{g.rate, g.held}
	}
	return rings
}

// Cameras reports whether there is footage at all.
func (f *Footage) Cameras() bool { return len(f.groups) > 0 }

// Sharing is how the footage is spread over the sets: while all are up each
// takes its equal share, and while some are down the others take over. It keeps
// the changes of the last retention period only.
type Sharing struct {
	changes []change
	up      int
}

type change struct {
	at float64
	up int // sets up from then on
}

// Reset begins a life with so many sets, all up.
func (s *Sharing) Reset(sets int) {
	s.changes, s.up = s.changes[:0], sets
}

// CopyFrom makes s a copy of t.
func (s *Sharing) CopyFrom(t *Sharing) {
	s.changes = append(s.changes[:0], t.changes...)
	s.up = t.up
}

// Change notes that up sets are up from now on.
func (s *Sharing) Change(f *Footage, now float64, up int) {
	// Drop what is further back than any footage, but for the state at that
	// time.
	old := 0
	for old+1 < len(s.changes) && s.changes[old+1].at < now-f.longest {
		old++
	}
	if old > 0 {
		s.changes = append(s.changes[:0], s.changes[old:]...)
	}
	if len(s.changes) == 0 {
		s.changes = append(s.changes, change{math.Inf(-1), s.up})
	}
	s.changes = append(s.changes, change{now, up})
	s.up = up
}

// Loss returns what goes with a set that is lost now and has stored since: the
// camera-hours destroyed, and for how long they are missing while due.
func (f *Footage) Loss(now, since float64, s *Sharing) (destroyed, missing float64) {
	if len(s.changes) == 0 {
		share := 1 / float64(s.up)
		if f.longest <= now-since && now <= f.horizon-f.longest {
			return share * f.fullDestroyed, share * f.fullMissing
		}
		return f.lossBetween(now, since, now, share)
	}
	to := now
	for i := len(s.changes) - 1; i >= 0 && to > since; i-- {
		c := s.changes[i]
		from := math.Max(c.at, since)
		if c.up > 0 && from < to {
			d, m := f.lossBetween(now, from, to, 1/float64(c.up))
			destroyed += d
			missing += m
		}
		to = math.Min(to, from)
	}
	return destroyed, missing
}

// Full returns the most that the loss of one set can cost: all that a full ring holds
// of it, in mid-life.
func (f *Footage) Full() (destroyed, missing float64) {
	for i := range f.groups {
		g := &f.groups[i]
		destroyed += g.rate * g.held / f.sets
		missing += g.rate * g.held * g.held / 2 / f.sets
	}
	return destroyed, missing
}

// lossBetween returns the loss of the share of what was recorded between from and to.
func (f *Footage) lossBetween(now, from, to, share float64) (destroyed, missing float64) {
	left := f.horizon - now
	for i := range f.groups {
		g := &f.groups[i]
		young := now - to
		old := math.Min(now-from, g.held)
		if old <= young {
			continue
		}
		destroyed += share * g.rate * (old - young)
		missing += share * g.rate * dueAfter(g.held, left, young, old)
	}
	return destroyed, missing
}

// dueAfter returns ∫ min(held − a, left) da over the ages a from young to old, old at
// most held: for how long footage of these ages would still have been kept.
func dueAfter(held, left, young, old float64) float64 {
	sum := 0.0
	if bend := held - left; bend > young { // up to there the horizon ends first
		to := math.Min(bend, old)
		sum += left * (to - young)
		young = to
	}
	return sum + (old-young)*(held-(old+young)/2)
}

// Pause returns what goes missing where nothing records from now on for length hours:
// each hour is missing for as long as it would have been kept.
func (f *Footage) Pause(now, length float64) (missing float64) {
	end := math.Min(now+length, f.horizon)
	if end <= now {
		return 0
	}
	for i := range f.groups {
		g := &f.groups[i]
		// ∫ min(held, horizon − u) du, with t = horizon − u.
		missing += g.rate * (rise(g.held, f.horizon-now) - rise(g.held, f.horizon-end))
	}
	return missing
}

// Stripe returns what one stripe unit costs that is lost now, anywhere in the footage
// held with the same chance for every byte.
func (f *Footage) Stripe(now float64) (destroyed, missing float64) {
	if f.longest <= now && now <= f.horizon-f.longest {
		return f.midDestroyed, f.midMissing
	}
	return f.stripe(now)
}

// stripe works out what Stripe returns.
func (f *Footage) stripe(now float64) (destroyed, missing float64) {
	total := 0.0
	for i := range f.groups {
		total += f.groups[i].bytes * math.Min(f.groups[i].held, now)
	}
	if total == 0 {
		return 0, 0
	}
	left := f.horizon - now
	for i := range f.groups {
		g := &f.groups[i]
		old := math.Min(g.held, now)
		chance := g.bytes * old / total
		destroyed += chance * g.unit
		missing += chance * g.unit * dueAfter(g.held, left, 0, old) / old
	}
	return destroyed, missing
}
