package branch

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/history"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// hit is what a common-cause event may do to one group, and what it did.
type hit struct {
	group   int
	running int
	spare   int     // failures that it can still take
	over    float64 // chance that it takes more than that
	struck  int
}

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
	if w = b.thin(l.now, w, look); w == 0 {
		return
	}
	x := b.truncated(shocks) / b.sys.ShockRate
	u := 0.0
	if l.main && !b.struck {
		u, b.struck = b.stratified(3), true
	} else {
		u = b.rnd.Float64()
	}
	if l.main && !l.lost {
		b.comes(l.now, l.now+b.win.dt, l.now+x, w/chance, chance)
	}
	b.shock(l, x, w*elementary.Exp(-b.before(l, x, &b.win.shocks))*b.passed(x), chance/look, l.nominal(), u)
}

// comes notes for the controls of years that a common-cause event, which had that chance
// between from and to, comes at a time between them on a line of the life's main line of
// weight w.
func (b *Simulator) comes(from, to, at, w, chance float64) {
	first, last := b.tr.Year(from), b.tr.Year(to)
	if first == last {
		return // it comes in that year for certain
	}
	falls := b.tr.Year(at)
	start := from
	for year := first; year <= last; year++ {
		end := to
		if year < last {
			end = model.YearEnd(year)
		}
		x := -elementary.Exp(-b.sys.ShockRate*(start-from)) * law.Happens(b.sys.ShockRate*(end-start))
		if year == falls {
			x += chance
		}
		b.tr.InYear(year, model.YearEvents, w*x)
		start = end
	}
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
	if w = b.thin(at, w, b.keepShock*chance); w == 0 {
		return
	}
	c := b.copy(l)
	c.becomeBranch(w)
	c.now, c.clean = at, clean
	c.w *= b.drawStruck(u)
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

// strikesOn returns the law of how many of a group's running drives an event strikes. It
// is worked out when it is asked for: a large group is asked for with few of its numbers.
func (b *Simulator) strikesOn(running int) *law.Binomial {
	l := &b.strikes[running]
	if l.Chance == nil {
		*l = law.NewBinomial(running, b.sys.ShockChance)
	}
	return l
}

// survey lists the groups of the sets that are up.
func (b *Simulator) survey(l *line) {
	b.hits = b.hits[:0]
	for g := range l.groups {
		grp := &l.groups[g]
		if l.sets[g/b.sys.GroupsPerSet].down {
			continue
		}
		h := hit{group: g, running: grp.running, spare: b.sys.Tolerance - grp.level}
		h.over = b.strikesOn(h.running).Above[h.spare+1]
		b.hits = append(b.hits, h)
	}
}

// tallyShock counts the losses that an event at that time brings, by their exact
// chances: for weight w, of which no incident has been in clean.
func (b *Simulator) tallyShock(l *line, at, w, clean float64) {
	per := b.sys.GroupsPerSet
	all := 0.0
	for i := 0; i < len(b.hits); i += per {
		s := b.hits[i].group / per
		chance := 0.0
		for _, h := range b.hits[i : i+per] {
			chance = either(chance, h.over)
		}
		if chance == 0 {
			continue
		}
		all = either(all, chance)
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

// either returns the chance of at least one of two events that are independent, added
// up so that small ones keep their digits.
func either(p, q float64) float64 { return p + (1-p)*q }

// drawStruck draws how many drives of each group fail: in half of the cases by
// the law, in the other half with one group, chosen at random, struck by some
// number that it survives, the largest most often. The weight restores the law. u is
// uniform: which half, which group and what number hang on it.
func (b *Simulator) drawStruck(u float64) (weight float64) {
	favoured := none
	if b.sys.Tolerance > 0 && len(b.hits) > 0 {
		if u *= 2; u < 1 {
			u *= float64(len(b.hits))
			favoured = int(u)
			u -= float64(favoured)
		} else {
			u--
		}
	}
	for i := range b.hits {
		h := &b.hits[i]
		switch {
		case i == favoured:
			h.struck = favouredNumber(h.spare, u)
		case len(b.hits) == 1:
			h.struck = b.strikesOn(h.running).Draw(u)
		default:
			h.struck = b.strikesOn(h.running).Draw(b.rnd.Float64())
		}
	}
	if b.sys.Tolerance == 0 || len(b.hits) == 0 {
		return 1
	}
	mean := 0.0
	for i := range b.hits {
		if h := &b.hits[i]; h.struck <= h.spare {
			mean += favours(h.spare, h.struck) / b.strikesOn(h.running).Chance[h.struck]
		}
	}
	return 1 / (0.5 + 0.5*mean/float64(len(b.hits)))
}

// favouredNumber returns how many drives of a group are struck, at uniform u, where it is
// the favoured one and can take so many.
func favouredNumber(spare int, u float64) int {
	for n := range spare {
		if u -= favours(spare, n); u < 0 {
			return n
		}
	}
	return spare
}

// favours returns the chance of a number of struck drives in a favoured group that can take
// so many: it goes with the square of the number, since what follows goes up steeply with
// it.
func favours(spare, n int) float64 {
	if spare == 0 {
		return 1
	}
	return 6 * float64(n*n) / float64(spare*(spare+1)*(2*spare+1))
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
			lost = lost || set[j].struck > set[j].spare
			struck += set[j].struck
		}
		l.failures += struck
		b.tr.Add(model.Failures, l.w*float64(struck))
		if !lost {
			continue
		}
		s := set[0].group / per
		for j := range set {
			for range set[j].struck {
				b.removeAny(l, set[j].group)
			}
			set[j].struck = 0
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
		if h.struck > 0 && (most == none || h.struck > b.hits[most].struck) {
			most = i
		}
	}
	if most == none {
		return false
	}
	g := b.hits[most].group
	l.ratios = append(l.ratios, ratio{group: g, level: l.groups[g].level, waiting: l.waitingIn(g), out: b.out(l), share: l.w / *nominal, shock: true})
	b.noteTurn(l, history.Common, none, 0)
	for i := range b.hits {
		h := &b.hits[i]
		for range h.struck {
			b.removeAny(l, h.group)
			l.raise(h.group)
		}
	}
	return true
}

// followShock lets the failures that a set survives take their course, from
// hit number first on.
func (b *Simulator) followShock(l *line, first int) {
	for i := first; i < len(b.hits); i++ {
		h := &b.hits[i]
		if h.struck == 0 || l.sets[h.group/b.sys.GroupsPerSet].down {
			continue
		}
		if l.groups[h.group].level == b.sys.Tolerance {
			if c := b.reach(l, h.group); c != nil {
				b.followShock(c, i+1)
			}
		}
		for range h.struck {
			b.repairAlone(l, h.group)
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
