package branch

import (
	"arrayodds/array/elementary"
	"arrayodds/sim/branch/timing"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// edge adds the chance that a group at its tolerance is lost in the window, and
// lets roulette decide whether the life is followed beyond that loss.
func (b *Simulator) edge(l *line) {
	win := &b.win
	failure, unread := 0.0, 0.0
	for i := range win.edges {
		failure += win.edges[i].failure
		unread += win.edges[i].unread
	}
	alone := b.only(win.edges)
	if unread > 0 && !b.sys.Stop {
		b.anyIncident(l, failure+unread, alone)
	}
	total := failure
	if b.sys.Stop {
		total += unread
	}
	if total == 0 {
		return
	}
	x, chance := b.when(l, win.edges, b.rnd.Float64(), total)
	w := l.w * chance
	if !alone {
		w *= elementary.Exp(-b.before(l, x, &win.edges))
	}
	w *= b.passed(x)
	if w == 0 {
		return
	}
	at := l.now + x
	g := b.pickSource(l, win.edges, x)
	bySector := b.sys.Stop && unread > 0 && b.lostBySector(l, g, x)
	young, picked := none, !bySector && b.bounded(l, g)
	if picked {
		share := 1.0
		young, share = b.pickBounded(l, g, x)
		w *= share
	}
	if unread == 0 || b.sys.Stop {
		b.tr.Add(model.Any, w*l.clean*(1-law.Happens(b.unreadBefore(x))))
	}
	b.added(l.now, w)
	if !l.lost {
		by := model.Unreadable
		if !bySector {
			by = b.sys.CauseOfFailure(l.waitingIn(g) > 0)
		}
		b.firstLoss(l, at, w, by)
		for range b.marksPassed(w) {
			b.catch(l, b.edgeLoss(l, g, x, bySector, picked, young))
		}
	}

	// What follows is the same as for any branch, but that most end here.
	s := g / b.sys.GroupsPerSet
	c := b.beyond(l, s, w)
	until := at
	if c != nil || b.sys.Footage.Cameras() {
		until += b.drawRestart(at)
	}
	drives := 1.0
	if bySector {
		drives = 0
	}
	b.witness(l, w, x, &b.win.all)
	b.tr.Add(model.Failures, w*drives)
	b.tallyLoss(l, at, s, until, w, bySector)

	if c != nil {
		if !bySector && !picked {
			young = b.pickDrive(l, g, x)
		}
		c.now = at
		if !bySector {
			c.removeDrive(b, g, young)
			c.failures++
		}
		b.takeDown(c, s, until)
	}
}

// anyIncident adds the chance that the window brings the first incident, where
// unreadable sectors count as incidents but do not end the line's course.
func (b *Simulator) anyIncident(l *line, total float64, alone bool) {
	w := l.w * l.clean * law.Happens(total)
	if !alone || b.win.bounds > 0 {
		// The first x hours by the mean hazard: exact for constant hazards, and
		// made exact for others by the ratio of the densities.
		x := b.win.dt * timing.Truncated(b.rnd, total) / total
		if !areEven(b.win.edges) || b.win.bounds > 0 {
			mean, rate, before := total/b.win.dt, 0.0, 0.0
			for i := range b.win.edges {
				s := &b.win.edges[i]
				over := b.through(l, s.group, x)
				rate += over.Last + s.unread/b.win.dt + b.unreckoned(l, s.group, x)
				before += over.Over + s.unread*x/b.win.dt
			}
			w *= rate / mean * elementary.Exp(mean*x-before)
		}
		w *= elementary.Exp(-b.before(l, x, &b.win.edges)-b.unreadBefore(x)) * b.passed(x)
	}
	b.tr.Add(model.Any, w)
}

// unreadBefore is, under skip, the unreadable sectors expected in the first x
// hours of the window in the groups that other lines count.
func (b *Simulator) unreadBefore(x float64) float64 {
	if b.sys.Stop || b.win.all.unread == 0 {
		return 0
	}
	sum := b.win.evenOthers.unread
	for i := range b.win.others {
		sum += b.win.others[i].unread
	}
	return sum * x / b.win.dt
}

// lostBySector chooses, in proportion to the hazards x hours from now, whether
// it was an unreadable sector and not a failing drive that lost the group.
func (b *Simulator) lostBySector(l *line, g int, x float64) bool {
	for i := range b.win.edges {
		if s := &b.win.edges[i]; s.group == g {
			sector := s.unread / b.win.dt
			return b.rnd.Float64()*b.rateOfSource(l, s, x) < sector
		}
	}
	return false
}

// tallyLoss counts the loss of a set, for a weight.
func (b *Simulator) tallyLoss(l *line, at float64, s int, until, w float64, bySector bool) {
	b.tr.Add(model.LossEvents, w)
	b.tr.Add(model.Incidents, w)
	f := &b.sys.Footage
	if !f.Cameras() {
		return
	}
	destroyed, missing := f.Loss(at, l.sets[s].since, &l.sharing)
	if l.downSets+1 == len(l.sets) {
		missing += f.Pause(at, l.firstUp(s, until)-at)
	}
	b.tr.Add(model.Destroyed, w*destroyed)
	cause := model.MissingDrives
	if bySector {
		cause = model.MissingSectors
	}
	b.tr.Add(cause, w*missing)
	b.tr.SetLost(destroyed, w)
}

// firstUp returns when the first set is up again, where all others are down and set s
// will be until then.
func (l *line) firstUp(s int, until float64) float64 {
	for i := range l.sets {
		if i != s {
			until = min(until, l.sets[i].until)
		}
	}
	return until
}

// beyond makes the line that follows the loss of a set, of weight w, unless
// roulette ends it; then it is nil.
func (b *Simulator) beyond(l *line, s int, w float64) *line {
	nominal := b.nominalWithout(l, s)
	if w < nominal && b.rnd.Float64()*nominal >= w {
		b.added(l.now, -w)
		return nil
	}
	b.added(l.now, max(0, nominal-w))
	c := b.copy(l)
	c.becomeBranch(max(w, nominal))
	c.decay = c.w / nominal
	b.push(c)
	return c
}

// nominalWithout returns the weight that a line is held against once set s is down:
// what its forks in that set's groups cost it is behind it.
func (b *Simulator) nominalWithout(l *line, s int) float64 {
	return l.nominal() * b.forksOf(l, s)
}

// forksOf returns the factor by which the forks of a line in the groups of a set have
// lowered the weight that it is held against, inverted.
func (b *Simulator) forksOf(l *line, s int) float64 {
	factor := 1.0
	for i := range l.ratios {
		if l.ratios[i].group/b.sys.GroupsPerSet == s {
			factor /= l.ratios[i].share
		}
	}
	return factor
}
