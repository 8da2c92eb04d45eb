package branch

import (
	"math"

	"arrayodds/sim/model"
)

// over returns the cumulative hazard of a degraded group's running drives in the next
// dt hours.
func (b *Simulator) over(l *line, g int, dt float64) float64 {
	grp := &l.groups[g]
	scale := b.rate * b.sys.Degraded[grp.level]
	if b.perHour > 0 {
		return scale * b.perHour * float64(grp.running) * dt
	}
	sum := 0.0
	if grp.original > 0 {
		sum = b.batch * float64(grp.original) * b.life.Over(l.now, dt)
	}
	if grp.running > grp.original {
		for i := range l.young {
			if y := &l.young[i]; y.group == g {
				sum += y.batch * b.life.Over(l.now-y.install, dt)
			}
		}
	}
	return scale * sum
}

// rateAt returns the hazard per hour of a degraded group x hours from now.
func (b *Simulator) rateAt(l *line, g int, x float64) float64 {
	grp := &l.groups[g]
	scale := b.rate * b.sys.Degraded[grp.level]
	if b.perHour > 0 {
		return scale * b.perHour * float64(grp.running)
	}
	sum := 0.0
	if grp.original > 0 {
		sum = b.batch * float64(grp.original) * b.life.Rate(l.now+x)
	}
	if grp.running > grp.original {
		for i := range l.young {
			if y := &l.young[i]; y.group == g {
				sum += y.batch * b.life.Rate(l.now+x-y.install)
			}
		}
	}
	return scale * sum
}

// pickDrive chooses the drive of a group that fails x hours from now, in
// proportion to the hazards then: an index of the young, or none for one of the
// originals.
func (b *Simulator) pickDrive(l *line, g int, x float64) int {
	grp := &l.groups[g]
	if grp.running == grp.original {
		return none
	}
	old := 0.0
	if grp.original > 0 {
		old = b.batch * float64(grp.original) * b.life.Rate(l.now+x)
	}
	total := old
	for i := range l.young {
		if y := &l.young[i]; y.group == g {
			total += y.batch * b.life.Rate(l.now+x-y.install)
		}
	}
	left := b.rnd.Float64()*total - old
	if left < 0 {
		return none
	}
	last := none
	for i := range l.young {
		if y := &l.young[i]; y.group == g {
			last = i
			if left -= y.batch * b.life.Rate(l.now+x-y.install); left < 0 {
				break
			}
		}
	}
	return last
}

// nextFailure draws the next failure in the whole groups, if it comes within
// limit hours: after how long, in which group, and which of the young (none for
// an original). group is none where it does not come.
func (b *Simulator) nextFailure(l *line, limit float64) (dt float64, group, young int) {
	dt, group = limit, none
	scale := b.rate * b.batch * float64(l.calm)
	counted := l.main && l.twin == none
	if b.perHour > 0 {
		if l.calm == 0 {
			return dt, none, none
		}
		if x := b.rnd.Exp() / (scale * b.perHour); x < limit {
			dt, group = x, b.pickCalm(l)
		}
		if counted {
			b.passes(l.w, scale, b.perHour*l.now, b.perHour*(l.now+dt), group != none)
		}
		return dt, group, none
	}
	from, reached := 0.0, 0.0
	if l.calm > 0 {
		from = b.cumulative(l.now)
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
			reached = b.cumulative(l.now + dt)
		}
		b.clockAt, b.clock = l.now+dt, reached
		b.passes(l.w, scale, from, reached, original)
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
	if bounds == 0 {
		return dt, young
	}
	for x := b.rnd.Exp() / (b.rate * bounds); x < dt; x += b.rnd.Exp() / (b.rate * bounds) {
		i := b.pickByBound(l, bounds)
		y := &l.young[i]
		if b.rnd.Float64()*y.bound < y.batch*b.life.Rate(l.now+x-y.install) {
			return x, i
		}
	}
	return dt, young
}

// pickByBound chooses one of the young drives in whole groups in proportion to their
// bounds, which add up to so much.
func (b *Simulator) pickByBound(l *line, bounds float64) int {
	left := b.rnd.Float64() * bounds
	last := none
	for i := range l.young {
		if y := &l.young[i]; b.isCalm(l, y.group) && !math.IsInf(y.bound, 1) {
			last = i
			if left -= y.bound; left < 0 {
				break
			}
		}
	}
	return last
}

// cumulative returns the cumulative hazard of an original drive by a time, which the
// main line mostly asks for twice.
func (b *Simulator) cumulative(t float64) float64 {
	if t == b.clockAt {
		return b.clock
	}
	return b.life.Cumulative(t)
}

// passes notes for the controls that the main line, of weight w, went through the
// hazard of its original drives in whole groups: scale × the cumulative hazard of one
// drive from one value to another, at the end of which one of them failed or none did.
func (b *Simulator) passes(w, scale, from, to float64, fails bool) {
	through, late := -scale*(to-from), -scale*(to-from)*(to+from)/2
	if fails {
		through++
		late += to
	}
	b.tr.Control(model.Arrivals, w*through)
	b.tr.Control(model.LateArrivals, w*late/b.worn)
}

// pickCalm chooses a whole group by its originals.
func (b *Simulator) pickCalm(l *line) int {
	if len(l.groups) == 1 {
		return 0
	}
	i := b.rnd.Intn(l.calm)
	for g := range l.groups {
		grp := &l.groups[g]
		if grp.level > 0 || l.sets[g/b.sys.GroupsPerSet].down {
			continue
		}
		if i -= grp.original; i < 0 {
			return g
		}
	}
	panic("branch: fewer original drives in whole groups than counted")
}
