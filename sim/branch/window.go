package branch

import (
	"math"

	"arrayodds/sim/model"
)

// window is what may happen between now and the next event of a line.
type window struct {
	dt      float64
	edges   []source // groups at their tolerance, whose next failure this line counts
	forks   []source // groups with drives down that this line counts, short of that
	others  []source // groups that another line counts
	shocks  float64  // cumulative hazard of common cause
	unread  float64  // unreadable sectors expected in all groups together
	exposed int      // groups at their tolerance
	total   float64  // cumulative hazard of everything that ends the line's course
}

// source is one group's part of it, as cumulative hazards over the window.
type source struct {
	group   int
	failure float64
	unread  float64
}

// step follows a line through one window.
func (b *Simulator) step(l *line) {
	if g := l.strikes; g != none {
		l.strikes = none
		b.strike(l, g, l.struck)
	}
	at, what := l.nextScheduled(b.sys.Horizon)
	dt, g, young := b.nextFailure(l, at-l.now)
	b.ahead(l, dt)
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
	if l.decay < 0.5 && l.twin == none && !b.roulette(l, l.nominal()) {
		b.end(l)
	}
}

// ahead takes account of all that may happen to a line within dt, and leaves it
// with the weight of nothing of it happening.
func (b *Simulator) ahead(l *line, dt float64) {
	if dt <= 0 || len(l.down) == 0 && b.sys.ShockRate == 0 {
		return
	}
	b.look(l, dt)
	win := &b.win
	if len(win.edges) > 0 {
		b.edge(l)
	}
	if len(win.forks) > 0 {
		b.fork(l)
	}
	if win.shocks > 0 && l.twin == none {
		x := b.truncated(win.shocks) / b.sys.ShockRate
		chance := happens(win.shocks)
		b.shock(l, x, l.w*chance*math.Exp(-b.before(l, x, &win.shocks)), chance, l.nominal())
	}
	stay := 1 - happens(win.total)
	l.w *= stay
	l.decay *= stay
	l.clean *= b.witness(l, l.counts(), dt)
}

// look fills the window with what may happen within dt.
func (b *Simulator) look(l *line, dt float64) {
	win := &b.win
	win.dt = dt
	win.edges, win.forks, win.others = win.edges[:0], win.forks[:0], win.others[:0]
	win.unread, win.exposed = 0, 0
	b.looks++
	win.shocks = b.sys.ShockRate * dt
	win.total = win.shocks
	for i := range l.down {
		g := l.down[i].group
		grp := &l.groups[g]
		if grp.looked == b.looks {
			continue // it has several drives down
		}
		grp.looked = b.looks
		s := source{group: g, failure: b.over(l, g, dt)}
		win.total += s.failure
		edge := grp.level == b.sys.Tolerance
		if edge {
			win.exposed++
			if b.sys.ReadErrors > 0 {
				if d := l.firstRebuild(g); d != nil && d.length > 0 {
					s.unread = b.sys.ReadErrors * dt / d.length
					win.unread += s.unread
					if b.sys.Stop {
						win.total += s.unread
					}
				}
			}
		}
		switch mine := l.twin == g || l.twin == none && !grp.shadow; {
		case mine && edge:
			win.edges = append(win.edges, s)
		case mine:
			win.forks = append(win.forks, s)
		default:
			win.others = append(win.others, s)
		}
	}
}

// ends is the part of a source that ends the line's course: under skip an
// unreadable sector does not.
func (b *Simulator) ends(s *source) float64 {
	if b.sys.Stop {
		return s.failure + s.unread
	}
	return s.failure
}

// witness counts, with a weight, what is seen in the first x hours of the
// window. clean is the chance that no unreadable sector is skipped in them.
func (b *Simulator) witness(l *line, w, x float64) (clean float64) {
	win := &b.win
	b.tr.Add(model.Unprotected, w*float64(win.exposed)*x)
	if win.unread == 0 || b.sys.Stop {
		return 1
	}
	met := win.unread * x / win.dt
	b.skip(w, l.now+x/2, met, met)
	return math.Exp(-met)
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

// before is the cumulative hazard of all that could have ended the line's
// course in the first x hours of the window, but for the sources of one class:
// the slice given, or the common cause.
func (b *Simulator) before(l *line, x float64, class any) float64 {
	win := &b.win
	sum := 0.0
	add := func(sources []source) {
		share := x / win.dt
		for i := range sources {
			s := &sources[i]
			sum += b.over(l, s.group, x)
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
	return sum
}

// only says whether the sources of a class are all that there is.
func (b *Simulator) only(sources []source) bool {
	win := &b.win
	return win.shocks == 0 && len(win.edges)+len(win.forks)+len(win.others) == len(sources)
}

// when finds after how many hours the sources' cumulative hazard reaches
// target, where over the window it is total.
func (b *Simulator) when(l *line, sources []source, target, total float64) float64 {
	dt := b.win.dt
	x := dt * min(1, target/total)
	if b.perHour > 0 {
		return x
	}
	low, high := 0.0, dt
	for range 60 {
		h, rate := 0.0, 0.0
		for i := range sources {
			s := &sources[i]
			h += b.over(l, s.group, x)
			rate += b.rateAt(l, s.group, x)
			if b.sys.Stop {
				h += s.unread * x / dt
				rate += s.unread / dt
			}
		}
		if h < target {
			low = x
		} else {
			high = x
		}
		next := x - (h-target)/rate
		if !(next >= low && next <= high) {
			next = (low + high) / 2
		}
		if math.Abs(next-x) <= 1e-9*dt {
			return next
		}
		x = next
	}
	return x
}

// fork starts the branch in which one of the groups that this line counts, and
// that has more to spare, loses another drive in the window.
func (b *Simulator) fork(l *line) {
	win := &b.win
	total := 0.0
	for i := range win.forks {
		total += b.ends(&win.forks[i])
	}
	if total == 0 {
		return
	}
	x := b.when(l, win.forks, b.truncated(total), total)
	g := b.pickSource(l, win.forks, x)
	// A level that is stayed at through many windows would fork in each of them,
	// its branches again, and those of several groups one upon the other. As many
	// are kept as a stay has forks to give, times a few; and of branches of
	// branches in other groups, which are of no use to a loss, only so many that
	// they stand for as much as the first.
	chance := happens(total)
	w := l.w * chance
	keep := b.keep[l.groups[g].level] * chance / float64(len(win.forks))
	for i := range l.ratios {
		if r := &l.ratios[i]; r.group != g && !r.shock {
			keep *= r.share
		}
	}
	if keep < 1 {
		if b.rnd.Float64() >= keep {
			return
		}
		w /= keep
	}
	if !b.only(win.forks) {
		w *= math.Exp(-b.before(l, x, &win.forks))
	}
	if w == 0 {
		return
	}
	young := b.pickDrive(l, g, x)
	c := b.copy(l)
	c.becomeBranch(w)
	c.ratios = append(c.ratios, ratio{group: g, level: l.groups[g].level, share: w / l.nominal()})
	c.clean *= b.witness(l, w, x)
	c.now += x
	c.strikes, c.struck = g, young
	b.push(c)
}

// steer says how many forks are kept at each level of this life.
func (b *Simulator) steer() {
	if len(b.keep) > 0 && b.sys.Uncertain == 0 && b.sys.Frailty == 0 {
		return // as in the life before
	}
	b.keep = b.keep[:0]
	for _, h := range b.stay {
		b.keep = append(b.keep, kept(happens(b.rate*b.batch*h), b.most))
	}
}

// kept is the share of branches that is kept, for each unit of their chance,
// where that adds up to about total: then up to most are, where what they are
// about is rare, and one where it is not and need not be forced.
func kept(total, most float64) float64 { return max(1, min(most, 0.3/total)) / total }

// mostForks bounds the branches that leave a stay at one level. Branches
// branch: over all levels together they come to 64 at the most.
func (b *Simulator) mostForks() float64 {
	return math.Min(4, math.Pow(64, 1/float64(max(1, b.sys.Tolerance-1))))
}

// pickSource chooses the group that fails x hours from now, in proportion to
// the hazards then.
func (b *Simulator) pickSource(l *line, sources []source, x float64) int {
	if len(sources) == 1 {
		return sources[0].group
	}
	total := 0.0
	for i := range sources {
		total += b.rateOf(l, &sources[i], x)
	}
	left := b.rnd.Float64() * total
	for i := range sources {
		if left -= b.rateOf(l, &sources[i], x); left < 0 {
			return sources[i].group
		}
	}
	return sources[len(sources)-1].group
}

func (b *Simulator) rateOf(l *line, s *source, x float64) float64 {
	r := b.rateAt(l, s.group, x)
	if b.sys.Stop {
		r += s.unread / b.win.dt
	}
	return r
}
