package branch

import "math"

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

// kept returns the share of branches that is kept, for each unit of their chance,
// where that adds up to about total: then up to most are, where what they are about
// is rare, and one where it is not and need not be forced.
func kept(total, most float64) float64 { return max(1, min(most, 0.3/total)) / total }

// mostForks bounds the branches that leave a stay at one level. Branches
// branch: over all levels together they come to 64 at the most.
func (b *Simulator) mostForks() float64 {
	return math.Min(4, math.Pow(64, 1/float64(max(1, b.sys.Tolerance-1))))
}
