package branch

import (
	"math"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// through returns the hazard of a degraded group's running drives in the next x hours.
func (b *Simulator) through(l *line, g int, x float64) law.Stretch {
	grp := &l.groups[g]
	scale := b.rate * b.sys.Degraded[grp.level]
	if b.perHour > 0 {
		rate := scale * b.perHour * float64(grp.running)
		return law.Stretch{Over: rate * x, First: rate, Last: rate}
	}
	var s, sum law.Stretch
	if grp.original > 0 {
		s.Add(b.batch*float64(grp.original), b.life.Through(&l.near, l.now, x))
	}
	switch {
	case grp.running == grp.original:
	case b.bounded(l, g):
		s.Add(1, b.throughBounds(l, g, x))
	default:
		crowd := b.gathered(l, g, x)
		if crowd {
			s.Add(1, l.crowd.Through(l.now-l.crowd.at, x))
		}
		for i := range l.young {
			if y := &l.young[i]; y.group == g && !(crowd && y.crowded) {
				s.Add(y.batch, b.life.Through(&y.near, l.now-y.install, x))
			}
		}
	}
	sum.Add(scale, s)
	return sum
}

// over returns the cumulative hazard of a degraded group in the next x hours.
func (b *Simulator) over(l *line, g int, x float64) float64 { return b.through(l, g, x).Over }

// rateAt returns the hazard per hour of a degraded group x hours from now.
func (b *Simulator) rateAt(l *line, g int, x float64) float64 { return b.through(l, g, x).Last }

// rateOf returns the hazard per hour of a young drive x hours from now, but for what
// multiplies those of all drives.
func (b *Simulator) rateOf(l *line, y *youngDrive, x float64) float64 {
	return y.batch * b.life.At(&y.near, l.now+x-y.install)
}

// rateOfOriginals returns that of so many of the originals.
func (b *Simulator) rateOfOriginals(l *line, n int, x float64) float64 {
	if n == 0 {
		return 0
	}
	return b.batch * float64(n) * b.life.At(&l.near, l.now+x)
}

// pickDrive chooses the drive of a group that fails x hours from now, in
// proportion to the hazards then: an index of the young, or none for one of the
// originals. First it is tried with bounds, so that most of the young need no hazard:
// the drive chosen by these is taken with the share that its hazard has of its bound.
func (b *Simulator) pickDrive(l *line, g int, x float64) int {
	grp := &l.groups[g]
	if grp.running == grp.original {
		return none
	}
	old := b.rateOfOriginals(l, grp.original, x)
	const tries = 3
	for range tries {
		i := b.pickYoung(l, old, func(y *youngDrive) float64 {
			if y.group != g {
				return 0
			}
			return b.boundAt(l, y, x)
		})
		if i == none {
			return none
		}
		if y := &l.young[i]; math.IsInf(y.bound, 1) || b.rnd.Float64()*y.bound < b.rateOf(l, y, x) {
			return i
		}
	}
	return b.pickYoung(l, old, func(y *youngDrive) float64 {
		if y.group != g {
			return 0
		}
		return b.rateOf(l, y, x)
	})
}

// pickYoung chooses one of the young drives by shares, or none of them, which has a share
// too.
func (b *Simulator) pickYoung(l *line, ofNone float64, share func(*youngDrive) float64) (picked int) {
	total := ofNone
	for i := range l.young {
		total += share(&l.young[i])
	}
	left := b.rnd.Float64()*total - ofNone
	if left < 0 {
		return none
	}
	picked = none
	for i := range l.young {
		if s := share(&l.young[i]); s > 0 {
			picked = i
			if left -= s; left < 0 {
				break
			}
		}
	}
	return picked
}

// boundAt returns the bound of a young drive's hazard or, where there is none, its hazard
// per hour x hours from now.
func (b *Simulator) boundAt(l *line, y *youngDrive, x float64) float64 {
	if math.IsInf(y.bound, 1) {
		return b.rateOf(l, y, x)
	}
	return y.bound
}

// nextFailure draws the next failure in the whole groups, if it comes within
// limit hours: after how long, in which group, and which of the young (none for
// an original). group is none where it does not come.
func (b *Simulator) nextFailure(l *line, limit float64) (dt float64, group, young int) {
	dt, group = limit, none
	scale := b.rate * b.batch * float64(l.calm)
	// Of lives of which the first failure is not forced so few have one that what they passed
	// through without would pass for a law of their losses.
	counted := l.main && l.twin == none && b.firstForced
	if b.perHour > 0 {
		if l.calm == 0 {
			return dt, none, none
		}
		if x := b.rnd.Exp() / (scale * b.perHour); x < limit {
			dt, group = x, b.pickCalm(l)
		}
		if counted {
			b.life.Passes(b.tr, l.w, scale, b.perHour*l.now, b.perHour*(l.now+dt), group != none, l.lost)
		}
		return dt, group, none
	}
	from, reached := 0.0, 0.0
	if l.calm > 0 {
		from = b.life.By(l.now)
		reached = from + b.rnd.Exp()/scale
		x := b.life.Age(reached) - l.now
		if x < limit {
			dt, group = max(0, x), b.pickCalm(l)
		}
	}
	if x, i := b.nextYoung(l, dt); i != none {
		dt, group, young = x, l.young[i].group, i
	} else {
		young = none
	}
	if counted && l.calm > 0 {
		original := group != none && young == none
		if !original {
			reached = b.life.By(l.now + dt)
		}
		b.life.Keep(&l.near, l.now+dt, reached)
		b.life.Passes(b.tr, l.w, scale, from, reached, original, l.lost)
	}
	if n := len(l.young); counted && 0 < n && n <= fewYoung && l.calm <= youngAmong {
		if l.calm == 0 {
			from = b.life.Cumulative(l.now)
		}
		late := from // known before the window begins, so that the mean stays 0
		if limit == b.sys.Horizon-l.now {
			late = (from + b.life.Worn) / 2
		}
		b.passesYoung(l, dt, young != none, late)
	}
	return dt, group, young
}

// nextYoung draws the next failure of the young drives in whole groups, if it comes
// within limit hours: after how long, and which it is (none where it does not come).
//
// It is drawn by thinning (P. A. W. Lewis, G. S. Shedler, "Simulation of nonhomogeneous
// Poisson processes by thinning", Naval Research Logistics Quarterly 26(3), 1979; from
// memory): candidates come at the sum of the drives' bounds, and one counts with the
// share that its hazard then has of its bound. So most windows need no hazard at all.
// Drives without a bound have candidates of their own.
func (b *Simulator) nextYoung(l *line, limit float64) (dt float64, young int) {
	dt, young = limit, none
	bounds := 0.0
	if b.shares.Any() && len(l.young) > len(l.groups) {
		for g := range l.groups { // all drives have bounds, and their groups know the sum
			if b.isCalm(l, g) {
				bounds += l.groups[g].bounds
			}
		}
	} else {
		dt, young, bounds = b.nextUnbounded(l, limit)
	}
	if bounds == 0 {
		return dt, young
	}
	for x := b.rnd.Exp() / (b.rate * bounds); x < dt; x += b.rnd.Exp() / (b.rate * bounds) {
		i := b.pickYoung(l, 0, func(y *youngDrive) float64 {
			if !b.isCalm(l, y.group) || math.IsInf(y.bound, 1) {
				return 0
			}
			return y.bound
		})
		y := &l.young[i]
		if b.rnd.Float64()*y.bound < b.rateOf(l, y, x) {
			return x, i
		}
	}
	return dt, young
}

// nextUnbounded draws the next failure of those young drives in whole groups that have no
// bound, as nextYoung does, and adds up the bounds of the others.
func (b *Simulator) nextUnbounded(l *line, limit float64) (dt float64, young int, bounds float64) {
	dt, young = limit, none
	for i := range l.young {
		y := &l.young[i]
		if !b.isCalm(l, y.group) {
			continue
		}
		if !math.IsInf(y.bound, 1) {
			bounds += y.bound
			continue
		}
		age := l.now - y.install
		e := b.rnd.Exp() / (b.rate * y.batch)
		if e >= b.life.Over(age, dt) {
			continue
		}
		x := b.life.Age(b.life.Cumulative(age)+e) - age
		dt, young = min(dt, max(0, x)), i
	}
	return dt, young, bounds
}

// youngAmong is among how many originals the young drives are noted at the most.
const youngAmong = 256

// passesYoung notes for the controls that the young drives in whole groups of the main
// line went through their hazard in the next dt hours, at the end of which one of them
// failed or none did. Late is the hazard of an original drive that the time of a failure
// stands for. Only where they are few, since each takes time, and where each is something
// among all.
func (b *Simulator) passesYoung(l *line, dt float64, fails bool, late float64) {
	through := 0.0
	for i := range l.young {
		if y := &l.young[i]; b.isCalm(l, y.group) {
			through -= y.batch * b.life.Through(&y.near, l.now-y.install, dt).Over
		}
	}
	through *= b.rate
	if fails {
		through++
	}
	b.tr.Control(model.Arrivals, l.w*through)
	b.tr.Control(model.LateArrivals, l.w*through*late/b.life.Worn)
}

// pickCalm chooses a whole group by its originals.
func (b *Simulator) pickCalm(l *line) int {
	if len(l.groups) == 1 {
		return 0
	}
	i := b.rnd.Intn(l.calm)
	for g := range l.groups {
		if !b.isCalm(l, g) {
			continue
		}
		if i -= l.groups[g].original; i < 0 {
			return g
		}
	}
	panic("branch: fewer original drives in whole groups than counted")
}
