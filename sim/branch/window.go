package branch

import (
	"arrayodds/array/elementary"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// window is what may happen between now and the next event of a line.
type window struct {
	dt         float64
	edges      []source // groups at their tolerance, whose next failure this line counts
	forks      []source // groups with drives down that this line counts, short of that
	others     []source // groups that another line counts, whose hazard changes
	evenOthers source   // and the sum of those whose hazard does not
	evens      int      // how many of these there are
	shocks     float64  // cumulative hazard of common cause
	bounds     float64  // of the young drives whose hazards are reckoned by them, per hour
	passings   []passing
	calm       float64  // and of the drives in whole groups, where their failures are forced
	all        exposure // of all groups
	mine       exposure // of those that this line counts
	total      float64  // cumulative hazard of everything that ends the line's course
}

// exposure is what is seen of groups at their tolerance.
type exposure struct {
	groups int
	unread float64 // unreadable sectors expected
}

// source is one group's part of it, as cumulative hazards over the window.
type source struct {
	group   int
	failure float64
	unread  float64
	first   float64 // of failure, per hour as the window begins
	even    bool    // it is that all through the window
}

// step follows a line through one window.
func (b *Simulator) step(l *line) {
	if g := l.strikes; g != none {
		l.strikes = none
		b.strike(l, g, l.struck)
		if l.w == 0 {
			b.end(l)
			return
		}
	}
	at, what := l.nextScheduled(b.sys.Horizon, b.states != nil)
	dt, g, young := at-l.now, none, none
	forced := b.forced(l)
	if !forced {
		dt, g, young = b.nextFailure(l, dt)
	}
	b.ahead(l, dt, forced)
	if l.w == 0 {
		b.end(l)
		return
	}
	switch {
	case g != none:
		l.now += dt
		b.strike(l, g, young)
	case what == none:
		if l.twin == none {
			b.tr.LifeEnds(l.failures, l.w)
		}
		b.end(l)
		return
	case what == spareBack:
		l.now = at
		if !b.back(l) {
			b.end(l)
			return
		}
	case what < none:
		l.now = at
		b.restart(l, -2-what)
	default:
		l.now = at
		if l.down[what].state == waiting {
			b.ready(l, what)
		} else if !b.restored(l, what) {
			return
		}
	}
	if l.w == 0 || l.decay < 0.5 && l.twin == none && !b.roulette(l, l.nominal()) {
		b.end(l)
	}
}

// ahead takes account of all that may happen to a line within dt, and leaves it
// with the weight of nothing of it happening.
func (b *Simulator) ahead(l *line, dt float64, forced bool) {
	if dt <= 0 || len(l.down) == 0 && b.sys.ShockRate == 0 && !forced {
		return
	}
	b.look(l, dt, forced)
	win := &b.win
	if len(win.edges) > 0 {
		b.edge(l)
	}
	if len(win.forks) > 0 {
		b.fork(l)
	}
	if win.calm > 0 && (l.twin == spareTwin || l.twin == none && !l.shadow) {
		b.forkSpares(l)
	}
	if win.shocks > 0 && l.twin == none {
		b.shockAhead(l)
	}
	stay := (1 - law.Happens(win.total)) * b.passed(dt)
	if l.twin == none {
		b.added(l.now, l.w*(stay-1))
	}
	l.w *= stay
	l.decay *= stay
	b.witness(l, l.w, dt, &win.mine)
	l.clean *= b.cleanAfter(dt)
}

// look fills the window with what may happen within dt.
func (b *Simulator) look(l *line, dt float64, forced bool) {
	win := &b.win
	win.dt = dt
	win.edges, win.forks, win.others = win.edges[:0], win.forks[:0], win.others[:0]
	win.evenOthers, win.evens = source{}, 0
	win.passings, win.bounds = win.passings[:0], 0
	win.all, win.mine = exposure{}, exposure{}
	b.looks++
	win.shocks = b.sys.ShockRate * dt
	win.calm = 0
	if forced {
		win.calm = b.calmOver(l, dt)
	}
	win.total = win.shocks + win.calm
	for i := range l.down {
		g := l.down[i].group
		grp := &l.groups[g]
		if grp.looked == b.looks {
			continue // it has several drives down
		}
		grp.looked = b.looks
		s := source{group: g}
		if b.perHour > 0 {
			s.first = b.rate * b.sys.Degraded[grp.level] * b.perHour * float64(grp.running)
			s.failure, s.even = s.first*dt, true
		} else {
			hazard := b.through(l, g, dt)
			s.failure, s.first, s.even = hazard.Over, hazard.First, hazard.Even(dt)
			if b.bounded(l, g) {
				win.bounds += b.rate * b.sys.Degraded[grp.level] * grp.bounds
			}
		}
		win.total += s.failure
		edge := grp.level == b.sys.Tolerance
		if edge {
			win.all.groups++
			if b.sys.ReadErrors > 0 {
				if d := l.firstRebuild(g); d != nil && d.length > 0 {
					s.unread = b.sys.ReadErrors * dt / d.length
					win.all.unread += s.unread
					if b.sys.Stop {
						win.total += s.unread
					}
				}
			}
		}
		switch mine := l.twin == g || l.twin == none && !grp.shadow; {
		case mine && edge:
			win.mine.groups++
			win.mine.unread += s.unread
			win.edges = append(win.edges, s)
		case mine:
			win.forks = append(win.forks, s)
		case s.even:
			win.evenOthers.failure += s.failure
			win.evenOthers.unread += s.unread
			win.evens++
		default:
			win.others = append(win.others, s)
		}
	}
	if win.bounds > 0 {
		b.drawPassings(l, win.bounds)
	}
}

// ends returns the part of a source that ends the line's course: under skip an
// unreadable sector does not.
func (b *Simulator) ends(s *source) float64 {
	if b.sys.Stop {
		return s.failure + s.unread
	}
	return s.failure
}

// witness counts, with a weight, what is seen in the first x hours of the window of
// some groups. A line that stays counts those whose next failure it counts: of a group
// that a twin sees to, the twin does, since the length of its outage is drawn so that
// what it sees varies little. A branch counts all.
func (b *Simulator) witness(l *line, w, x float64, of *exposure) {
	b.tr.Add(model.Unprotected, w*float64(of.groups)*x)
	if of.unread == 0 || b.sys.Stop {
		return
	}
	met := of.unread * x / b.win.dt
	b.skip(w, l.now+x/2, met, met)
}

// cleanAfter returns the chance that no unreadable sector is skipped in the first x
// hours of the window.
func (b *Simulator) cleanAfter(x float64) float64 {
	if b.win.all.unread == 0 || b.sys.Stop {
		return 1
	}
	return elementary.Exp(-b.win.all.unread * x / b.win.dt)
}

// skip counts, with a weight, unreadable sectors that cost a stripe each.
func (b *Simulator) skip(w, at, incidents, stripes float64) {
	b.tr.Add(model.Incidents, w*incidents)
	b.tr.Add(model.Stripes, w*stripes)
	if b.sys.Footage.Cameras() {
		destroyed, missing := b.sys.Footage.Stripe(at)
		b.tr.Add(model.Destroyed, w*stripes*destroyed)
		b.tr.Add(model.MissingSectors, w*stripes*missing)
	}
}

// before returns the cumulative hazard of all that could have ended the line's course
// in the first x hours of the window, but for the sources of one class: the slice
// given, the common cause or the whole groups.
func (b *Simulator) before(l *line, x float64, class any) float64 {
	win := &b.win
	share := x / win.dt
	sum := b.ends(&win.evenOthers) * share
	add := func(sources []source) {
		for i := range sources {
			s := &sources[i]
			if s.even {
				sum += s.failure * share
			} else {
				sum += b.over(l, s.group, x)
			}
			if b.sys.Stop {
				sum += s.unread * share
			}
		}
	}
	if class != &win.edges {
		add(win.edges)
	}
	if class != &win.forks {
		add(win.forks)
	}
	add(win.others)
	if class != &win.shocks {
		sum += b.sys.ShockRate * x
	}
	if win.calm > 0 && class != &win.calm {
		sum += b.calmOver(l, x)
	}
	return sum
}

// only reports whether the sources of a class are all that there is.
func (b *Simulator) only(sources []source) bool {
	win := &b.win
	return win.shocks == 0 && win.calm == 0 && len(win.edges)+len(win.forks)+len(win.others)+win.evens == len(sources)
}
