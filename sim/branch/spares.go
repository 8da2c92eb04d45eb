package branch

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/branch/timing"
	"arrayodds/sim/branch/worth"
	"arrayodds/sim/history"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// Where hot spares are out, failures in whole groups are forced as well: they use the
// rest up, and a drive that fails then waits.

// spareTwin stands, in place of a group, for the twin of a line that lives for the next
// failure in a whole group while spares are out.
const spareTwin = -3

// spareBack is the event of a spare that comes back.
const spareBack = math.MinInt

const (
	// often is the failures in whole groups, expected until a spare comes back, above
	// which they need not be forced.
	often = 0.5
	// spareForks is how many branches, of all that leave a stay with spares out, are
	// followed for each share of the worth that lies that way, up to one a stay, and
	// leastSpareForks the fewest. Of a line that has come to so much weight that
	// severalFrom of them would be due, several leave a stay, maxSpareForks at the most:
	// with one alone, four spares one upon the other left most to a few heavy lives.
	spareForks      = 16
	leastSpareForks = 0.05
	severalFrom     = 12.0
	maxSpareForks   = 8
)

// prepareSpares says where failures in whole groups are forced, and what states are
// worth.
func (b *Simulator) prepareSpares() {
	sys := b.sys
	if b.states, b.restock = worth.Of(sys, b.effort.Failure, &b.wait); b.states == nil {
		return
	}
	b.stayOut = make([]float64, sys.Spares+1)
	for out := 1; out <= sys.Spares; out++ {
		b.stayOut[out] = b.effort.Failure * min(sys.Repair.Restock.Mean()/float64(out), sys.Horizon)
	}
	b.base = b.states.At(1, 0, 1)
}

// out returns the number of spares that are out.
func (b *Simulator) out(l *line) int { return b.sys.Spares - l.free }

// forced reports whether failures in whole groups of a line are forced. Once a twin is
// made they are, in it and in its line, until a spare comes back, whatever they are
// expected to be meanwhile: else both would have them, and what follows twice.
func (b *Simulator) forced(l *line) bool {
	if b.states == nil {
		return false
	}
	if l.shadow || l.twin == spareTwin {
		return true
	}
	out := b.out(l)
	return out > 0 && b.whileOut(l, out) < often
}

// whileOut returns the failures in whole groups of a line that are expected until a spare
// comes back, of so many that are out. Replaced drives have batches of their own.
func (b *Simulator) whileOut(l *line, out int) float64 {
	drives := b.batch * float64(l.calm)
	for i := range l.young {
		if y := &l.young[i]; b.isCalm(l, y.group) {
			drives += y.batch
		}
	}
	return b.rate * drives * b.stayOut[out]
}

// takeSpareFor sends a drive of a group on its way back with a hot spare. Where chance
// has a part in the time until the spare is replaced, that is drawn twice.
func (b *Simulator) takeSpareFor(l *line, g int) {
	length := b.drawWait(&b.sys.Repair.Restock, l.now)
	if l.twin != spareTwin && b.restock.Random() && b.forced(l) {
		if l.twin == none {
			b.startSpareTwin(l, g)
		}
		// A group's twin has none, but what its line leaves to one it must leave too.
		l.shadow = true
	}
	b.enterSpare(l, g, length)
}

// startSpareTwin starts the twin of a line, of which a drive of a group takes a spare now.
func (b *Simulator) startSpareTwin(l *line, g int) {
	tilted, weight := b.restock.DrawTilted(b.rnd, l.free+1)
	if l.main {
		b.tr.Control(model.Outages, l.w*(weight-1))
	}
	t := b.twinOf(l, spareTwin, weight)
	b.enterSpare(t, g, tilted)
	b.push(t)
}

// enterSpare enters the length that was drawn until a spare is replaced.
func (b *Simulator) enterSpare(l *line, g int, length float64) {
	back := l.now + length
	l.returns = append(l.returns, back)
	b.noteTurn(l, history.Spare, g, back)
	l.down = append(l.down, downDrive{group: g, state: queued, at: math.Inf(1), begun: l.now})
	b.ready(l, len(l.down)-1)
}

// nextBack returns which of the spares that are out comes back first, and when: none and
// never where none is out.
func (l *line) nextBack() (first int, at float64) {
	first, at = none, math.Inf(1)
	for i, x := range l.returns {
		if x < at {
			first, at = i, x
		}
	}
	return first, at
}

// back takes the spare back that is due first. It reports whether the line goes on.
func (b *Simulator) back(l *line) bool {
	first, _ := l.nextBack()
	l.returns[first] = l.returns[len(l.returns)-1]
	l.returns = l.returns[:len(l.returns)-1]
	l.free++
	l.shadow = false
	if l.twin >= 0 { // it lives on for its group, with failures in whole groups as its line has them
		return true
	}
	return l.twin == none && b.leaveForks(l)
}

// calmOver returns the cumulative hazard of the drives in whole groups in the next dt
// hours.
func (b *Simulator) calmOver(l *line, dt float64) float64 {
	if b.perHour > 0 {
		return b.rate * b.perHour * float64(l.calm) * dt
	}
	sum := 0.0
	if l.calm > 0 {
		sum = b.batch * float64(l.calm) * b.life.Through(&l.near, l.now, dt).Over
	}
	for i := range l.young {
		if y := &l.young[i]; b.isCalm(l, y.group) {
			sum += y.batch * b.life.Through(&y.near, l.now-y.install, dt).Over
		}
	}
	return b.rate * sum
}

// isCalm reports whether a group is whole and its set up.
func (b *Simulator) isCalm(l *line, g int) bool {
	return l.groups[g].level == 0 && !l.sets[g/b.sys.GroupsPerSet].down
}

// forkSpares starts the branches in which a drive of a whole group fails in the window,
// while spares are out: one for most lines, several for heavy ones.
func (b *Simulator) forkSpares(l *line) {
	win := &b.win
	if win.calm == 0 {
		return
	}
	chance := law.Happens(win.calm)
	out := b.out(l)
	stay := b.whileOut(l, out)
	follow := b.followSpares(l, out, stay) * chance / min(1, stay)
	times := math.Ceil(min(b.mostSpareForks(), follow))
	for range int(times) {
		b.forkSpare(l, chance, follow, times)
	}
}

// forkSpare starts one of so many branches, which share the window's chance, and of which
// that many are followed in all.
func (b *Simulator) forkSpare(l *line, chance, follow, times float64) {
	win := &b.win
	_, back := l.nextBack()
	share, tilt := b.forkTime(l.free+1, back-l.now, win.calm, b.rnd.Float64())
	x := b.calmTime(l, law.HazardOf(share*chance))
	w := b.thin(l.w*chance*tilt/times, follow/times)
	if w > 0 {
		w *= elementary.Exp(-b.before(l, x, &win.calm)) * b.passed(x)
	}
	if w > 0 {
		g, young := b.pickCalmDrive(l, x)
		b.startBranch(l, x, w, g, young)
	}
}

// followSpares returns how many of the branches that leave a stay are followed: by what
// share of the worth of the outage that took the first spare lies that way.
func (b *Simulator) followSpares(l *line, out int, stay float64) float64 {
	first := l.nominal()
	for i := range l.ratios {
		first /= l.ratios[i].share
	}
	then := 0.0
	if l.free > 0 {
		then = b.states.At(1, 0, out+1)
	} else {
		then = b.states.At(1, 1, out)
	}
	n := spareForks * l.w * stay * then / (first * b.base)
	return max(leastSpareForks, min(1, n), min(b.mostSpareForks(), n/severalFrom), min(1, stay))
}

// mostSpareForks returns how many branches leave a stay at the most: the more the fewer
// outages a life has, since those of one life make up for each other.
func (b *Simulator) mostSpareForks() float64 {
	return max(1, maxSpareForks/max(1, b.hazard))
}

// calmTime returns after how many hours the cumulative hazard of whole groups reaches
// target in the window.
func (b *Simulator) calmTime(l *line, target float64) float64 {
	win := &b.win
	x := win.dt * min(1, target/win.calm)
	if b.perHour > 0 {
		return x
	}
	return timing.Reached(win.dt, target, x, func(x float64) (over, next float64) {
		over = b.calmOver(l, x)
		return over, x * target / over // hazards change slowly within a window
	})
}

// pickCalmDrive chooses the drive of a whole group that fails x hours from now, in
// proportion to the hazards then: its group, and which of the young it is or none.
func (b *Simulator) pickCalmDrive(l *line, x float64) (g, young int) {
	if b.perHour > 0 || len(l.young) == 0 {
		return b.pickCalm(l), none
	}
	young = b.pickYoung(l, b.rateOfOriginals(l, l.calm, x), func(y *youngDrive) float64 {
		if !b.isCalm(l, y.group) {
			return 0
		}
		return b.rateOf(l, y, x)
	})
	if young == none {
		return b.pickCalm(l), none
	}
	return l.young[young].group, young
}

// worthOf returns the worth of a state, at least that of a life's ordinary outages.
func (b *Simulator) worthOf(down, waiting, out int) float64 {
	return max(b.base, b.states.At(down, waiting, out))
}

// waitingIn returns how many drives of a group wait.
func (l *line) waitingIn(g int) (n int) {
	for i := range l.down {
		if l.down[i].group == g && l.down[i].state == waiting {
			n++
		}
	}
	return n
}

// leaveForks holds a line against the weight that it had before it branched off, for
// each fork whose group is back at the level that it left. As long as the state is worth
// more than that one was, since more spares are out or a drive waits, it is held against
// less. It reports whether the line goes on.
func (b *Simulator) leaveForks(l *line) bool {
	out := b.out(l)
	nominal := l.nominal()
	raised := false
	for i := len(l.ratios) - 1; i >= 0; i-- {
		r := &l.ratios[i]
		grp := &l.groups[r.group]
		if grp.level > r.level {
			out = min(out, r.out)
			continue
		}
		share := min(1, b.worthOf(r.level, r.waiting, r.out)/b.worthOf(grp.level, l.waitingIn(r.group), out))
		if share > r.share {
			nominal *= share / r.share
			r.share = share
			raised = true
		}
		if r.share < 1 {
			out = min(out, r.out)
			continue
		}
		l.ratios = append(l.ratios[:i], l.ratios[i+1:]...)
	}
	return !raised || b.roulette(l, nominal)
}
