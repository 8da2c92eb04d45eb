package branch

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/branch/commoncause"
	"arrayodds/sim/branch/timing"
	"arrayodds/sim/history"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// looksAtShocks is in how many windows of a life common cause is looked at, about, where
// there are more: what it may do to many groups takes time.
const looksAtShocks = 64

// shockAhead takes account of a common-cause event in the window. Of the shortest windows
// it looks at some, and weighs those for all.
func (b *Simulator) shockAhead(l *line) {
	shocks := b.win.shocks
	chance := law.Happens(shocks)
	w := l.w * chance
	look := min(1, b.lookShock*chance)
	if w = b.thin(w, look); w == 0 {
		return
	}
	x := timing.Truncated(b.rnd, shocks) / b.sys.ShockRate
	u := 0.0
	if l.main && !b.struck {
		u, b.struck = b.stratified(3), true
	} else {
		u = b.rnd.Float64()
	}
	if l.main && !l.lost {
		commoncause.Comes(b.tr, b.sys.ShockRate, l.now, l.now+b.win.dt, l.now+x, w/chance, chance)
	}
	w *= elementary.Exp(-b.before(l, x, &b.win.shocks)) * b.passed(x)
	b.added(l.now, w)
	b.shock(l, x, w, chance/look, l.nominal(), u)
}

// shock takes account of a common-cause event after x hours, which has chance
// and, with everything else ahead of it, weight w. The losses that it brings are
// counted; what else it does is followed in a branch, held against nominal once
// all is restored. Not every event has its branch, or branches of branches would
// never end: about as many are kept as a life has events to give, times a few.
func (b *Simulator) shock(l *line, x, w, chance, nominal, u float64) {
	if w == 0 {
		return
	}
	at, clean := l.now+x, l.clean
	if l.started() {
		b.witness(l, w, x, &b.win.all)
		clean *= b.cleanAfter(x)
	}
	b.survey(l)
	b.tallyShock(l, at, w, w*clean)
	kept := b.thin(w, b.keepShock*chance)
	b.added(at, kept-w)
	if kept == 0 {
		return
	}
	c := b.copy(l)
	c.becomeBranch(kept)
	c.now, c.clean = at, clean
	c.w *= b.strikes.Draw(b.rnd, b.hits, u)
	hurt := b.applyShock(c, &nominal)
	if c.w > 0 && hurt {
		b.push(c)
		b.followShock(c, 0)
		return
	}
	// Nothing has come of it that takes time.
	if c.w > 0 && b.roulette(c, nominal) {
		b.push(c)
		return
	}
	b.release(c)
}

// started is false before the first failure of a life, where no window has been
// looked at.
func (l *line) started() bool { return l.now > 0 || l.failures > 0 || len(l.down) > 0 }

// survey lists the groups of the sets that are up.
func (b *Simulator) survey(l *line) {
	b.hits = b.hits[:0]
	for g := range l.groups {
		grp := &l.groups[g]
		if l.sets[g/b.sys.GroupsPerSet].down {
			continue
		}
		b.hits = append(b.hits, b.strikes.Hit(g, grp.running, b.sys.Tolerance-grp.level))
	}
}

// tallyShock counts the losses that an event at that time brings, by their exact
// chances: for weight w, of which no incident has been in clean.
func (b *Simulator) tallyShock(l *line, at, w, clean float64) {
	per := b.sys.GroupsPerSet
	all := 0.0
	for i := 0; i < len(b.hits); i += per {
		s := b.hits[i].Group / per
		chance := commoncause.Loss(b.hits[i : i+per])
		if chance == 0 {
			continue
		}
		all = commoncause.Either(all, chance)
		until := at
		if len(l.sets) == 1 { // else the gap is counted where it is known that all are down
			until += b.drawRestart(at)
		}
		b.tallyLoss(l, at, s, until, w*chance, false)
	}
	if all > 0 {
		if !l.lost {
			b.firstLoss(l, at, w*all, model.CommonCause)
			for range b.marksPassed(w * all) {
				b.catch(l, b.shockLoss(at))
			}
		}
		b.tr.Add(model.Any, clean*all)
	}
}

// applyShock fails the drives that were struck, all at once. It reports whether a
// drive is down in a group that goes on; that group then carries the share of the
// line in the weight that it is held against. Forks in a set that is lost are over,
// which raises that weight.
func (b *Simulator) applyShock(l *line, nominal *float64) (hurt bool) {
	per := b.sys.GroupsPerSet
	// Losses come first, so that what is lost takes no spare.
	alreadyDown := l.downSets
	for i := 0; i < len(b.hits); i += per {
		set := b.hits[i : i+per]
		lost, struck := false, 0
		for j := range set {
			lost = lost || set[j].Struck > set[j].Spare
			struck += set[j].Struck
		}
		l.failures += struck
		b.tr.Add(model.Failures, l.w*float64(struck))
		if !lost {
			continue
		}
		s := set[0].Group / per
		for j := range set {
			for range set[j].Struck {
				b.removeAny(l, set[j].Group)
			}
			set[j].Struck = 0
		}
		*nominal *= b.forksOf(l, s)
		b.takeDown(l, s, l.now+b.drawRestart(l.now))
	}
	if len(l.sets) > 1 && l.downSets == len(l.sets) && alreadyDown < l.downSets && b.sys.Footage.Cameras() {
		gap := b.sys.Footage.Pause(l.now, l.firstUp(none, math.Inf(1))-l.now)
		b.tr.Add(model.MissingDrives, l.w*gap)
	}
	most := none
	for i := range b.hits {
		h := &b.hits[i]
		if h.Struck > 0 && (most == none || h.Struck > b.hits[most].Struck) {
			most = i
		}
	}
	if most == none {
		return false
	}
	g := b.hits[most].Group
	l.ratios = append(l.ratios, ratio{group: g, level: l.groups[g].level, waiting: l.waitingIn(g), out: b.out(l), share: l.w / *nominal, lot: b.rnd.Float64(), shock: true})
	b.noteTurn(l, history.Common, none, 0)
	for i := range b.hits {
		h := &b.hits[i]
		for range h.Struck {
			b.removeAny(l, h.Group)
			l.raise(h.Group)
		}
	}
	return true
}

// followShock lets the failures that a set survives take their course, from
// hit number first on.
func (b *Simulator) followShock(l *line, first int) {
	for i := first; i < len(b.hits); i++ {
		h := &b.hits[i]
		if h.Struck == 0 || l.sets[h.Group/b.sys.GroupsPerSet].down {
			continue
		}
		if l.groups[h.Group].level == b.sys.Tolerance {
			if c := b.reach(l, h.Group); c != nil {
				b.followShock(c, i+1)
			}
		}
		for range h.Struck {
			b.repairAlone(l, h.Group)
		}
	}
}

// repairAlone is repair without a twin: drives that fail together are entered
// one after the other, and a twin made between would lack the rest. So nothing is left to
// one: what was shadowed before is, and no more.
func (b *Simulator) repairAlone(l *line, g int) {
	twin, shadow := l.twin, l.shadow
	l.twin = g
	b.repair(l, g)
	l.twin, l.shadow = twin, shadow
}

// removeAny takes out a running drive of a group, each with the same chance.
func (b *Simulator) removeAny(l *line, g int) {
	grp := &l.groups[g]
	i := b.rnd.Intn(grp.running)
	if i < grp.original {
		b.noteFailure(l, g, none)
		l.removeDrive(b, g, none)
		return
	}
	i -= grp.original
	for y := range l.young {
		if l.young[y].group != g {
			continue
		}
		if i == 0 {
			b.noteFailure(l, g, y)
			l.removeDrive(b, g, y)
			return
		}
		i--
	}
}
