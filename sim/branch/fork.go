package branch

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/branch/timing"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

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
	g, x, w := b.drawFork(l, total)
	if w > 0 && !b.only(win.forks) {
		w *= elementary.Exp(-b.before(l, x, &win.forks))
	}
	w *= b.passed(x)
	if w == 0 {
		return
	}
	if b.bounded(l, g) {
		young, share := b.pickBounded(l, g, x)
		b.startBranch(l, x, w*share, g, young)
		return
	}
	b.startBranch(l, x, w, g, b.pickDrive(l, g, x))
}

// drawFork draws which of the window's groups forks the line, where all hazards of these add
// up to total, after how many hours, and the weight of the branch: 0 for one that is not
// followed.
func (b *Simulator) drawFork(l *line, total float64) (g int, x, w float64) {
	win := &b.win
	about := total / (1 + total/2) // the chance of one, as far as it matters for how many are followed
	if n := len(win.forks); n > 1 {
		x, chance := b.when(l, win.forks, b.rnd.Float64(), total)
		g = b.pickSource(l, win.forks, x)
		return g, x, b.thin(l.w*chance, b.keepForks(l, g)*about/float64(n))
	}
	g = win.forks[0].group
	share, tilt := b.forkTime(b.sys.Tolerance-l.groups[g].level, b.untilRestored(l, g), total, b.rnd.Float64())
	if l.main {
		b.tr.Control(model.Forks, l.w*about*(tilt-1))
	}
	// One that is not followed needs no hazard at its time.
	if w = b.thin(l.w*tilt, b.keepForks(l, g)*about); w == 0 {
		return g, 0, 0
	}
	x, chance := b.when(l, win.forks, share, total)
	return g, x, w * chance
}

// keepForks returns the share of the forks of a line in a group that is kept, for each unit of
// chance. A level that is stayed at through many windows would fork in each of them, its
// branches again, and those of several groups one upon the other. As many are kept as a
// stay has forks to give, times a few; and of branches of branches in other groups, which
// are of no use to a loss, only so many that they stand for as much as the first.
func (b *Simulator) keepForks(l *line, g int) float64 {
	level := l.groups[g].level
	keep := b.keep[level] / float64(max(1, len(l.down)-level))
	for i := range l.ratios {
		if r := &l.ratios[i]; r.group != g && !r.shock {
			keep *= r.share
		}
	}
	return keep
}

// forkTime draws when in the window a line forks ([timing.Fork]), with m more failures to
// follow within so many hours.
func (b *Simulator) forkTime(m int, left, total, even float64) (share, weight float64) {
	return timing.Fork(b.rnd, m, b.win.dt, left, total, b.alone, even)
}

// thin keeps a branch of weight w with the chance keep, or for certain where that is 1 or
// more, and returns the weight that it then has: 0 where it is not kept.
func (b *Simulator) thin(w, keep float64) float64 {
	if keep >= 1 {
		return w
	}
	if b.rnd.Float64() >= keep {
		return 0
	}
	return w / keep
}

// startBranch starts the branch of a line, of weight w, in which a drive of a group fails
// x hours from now: one of the young, or none for an original.
func (b *Simulator) startBranch(l *line, x, w float64, g, young int) {
	b.added(l.now, w)
	c := b.copy(l)
	c.becomeBranch(w)
	share := w / l.nominal()
	c.ratios = append(c.ratios, ratio{group: g, level: l.groups[g].level, waiting: l.waitingIn(g), out: b.out(l), share: share, lot: b.drawLot(l, g, share)})
	b.witness(l, w, x, &b.win.all)
	c.clean *= b.cleanAfter(x)
	c.now += x
	c.strikes, c.struck = g, young
	b.push(c)
}

// drawLot returns the lot of a branch with a share of the weight of a line. Of a twin's
// branches and the line that it belongs to, one goes on as a rule: the line with its part of
// the even numbers, each branch with one of what the line leaves.
func (b *Simulator) drawLot(l *line, g int, share float64) (lot float64) {
	if l.twin != g {
		return b.rnd.Float64()
	}
	grp := &l.groups[g]
	lot = grp.lot
	grp.lot = lot - share - math.Floor(lot-share)
	return lot
}

// untilRestored returns the hours until a degraded group has a drive more, if nothing
// fails: of a drive that waits, with the rebuild that follows.
func (b *Simulator) untilRestored(l *line, g int) float64 {
	soonest := math.Inf(1)
	for i := range l.down {
		d := &l.down[i]
		if d.group != g {
			continue
		}
		switch d.state {
		case rebuilding:
			soonest = min(soonest, d.at)
		case waiting:
			soonest = min(soonest, d.at+b.sys.Repair.Rebuild)
		}
	}
	return soonest - l.now
}

// steer says how many forks are kept at each level of this life.
func (b *Simulator) steer() {
	if len(b.keep) > 0 && b.sys.Uncertain == 0 && b.sys.Frailty == 0 {
		return // as in the life before
	}
	b.keep = b.keep[:0]
	for _, h := range b.effort.Stay {
		b.keep = append(b.keep, b.effort.Forks(law.Happens(b.rate*b.batch*h)))
	}
}
