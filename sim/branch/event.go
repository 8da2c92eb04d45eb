package branch

import (
	"arrayodds/sim/history"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// removeDrive takes a running drive out of a group.
func (l *line) removeDrive(b *Simulator, g, young int) {
	grp := &l.groups[g]
	grp.running--
	if young == none {
		grp.original--
		if grp.level == 0 {
			l.calm--
		}
		return
	}
	b.leaveCrowd(l, &l.young[young])
	grp.bounds -= l.young[young].bound
	l.young[young] = l.young[len(l.young)-1]
	l.young = l.young[:len(l.young)-1]
}

// addDrive puts a new drive into a group.
func (l *line) addDrive(b *Simulator, g int) {
	grp := &l.groups[g]
	grp.running++
	if b.perHour > 0 { // as good as any other
		grp.original++
		return
	}
	batch := b.ownBatch()
	bound := batch * b.life.MaxRate(0, b.sys.Horizon-l.now)
	if grp.running == grp.original+1 {
		grp.bounds = 0 // what rounding left of those before
	}
	grp.bounds += bound
	l.young = append(l.young, youngDrive{group: g, install: l.now, batch: batch, bound: bound})
}

// raise counts one more drive down in a group.
func (l *line) raise(g int) {
	grp := &l.groups[g]
	if grp.level == 0 {
		l.calm -= grp.original
	}
	grp.level++
}

// strike makes a drive fail now: one of a whole group of a line, or the drive
// that a fork is about.
func (b *Simulator) strike(l *line, g, young int) {
	l.failures++
	b.tr.Add(model.Failures, l.counts())
	if b.sys.Tolerance == 0 {
		b.loseWhole(l, g, young)
		return
	}
	b.noteFailure(l, g, young)
	l.removeDrive(b, g, young)
	l.raise(g)
	if l.groups[g].level == b.sys.Tolerance {
		b.reach(l, g)
	}
	b.repair(l, g)
}

// loseWhole loses a set of groups that tolerate nothing, to a drive of one of
// them: this is not rare, and the line goes on with it.
func (b *Simulator) loseWhole(l *line, g, young int) {
	if !l.lost {
		b.firstLoss(l, l.now, l.w, model.FirstFailure)
		for range b.marksPassed(l.w) {
			b.catch(l, history.Loss{At: l.now, By: history.ByDrive, Group: g, Drive: b.driveOf(l, young)})
		}
	}
	l.removeDrive(b, g, young)
	s := g / b.sys.GroupsPerSet
	b.tr.Add(model.Any, l.w*l.clean)
	until := l.now + b.drawRestart(l.now)
	b.tallyLoss(l, l.now, s, until, l.w, false)
	b.takeDown(l, s, until)
}

// reach is called when a group comes to its tolerance: latent defects on the
// drives that run are met. Where that loses the group, beyond is the line that
// follows, nil where none does.
func (b *Simulator) reach(l *line, g int) (beyond *line) {
	grp := &l.groups[g]
	met := float64(grp.running) * b.sys.Defects(l.now-grp.cleared)
	known := 0
	if b.sys.Start != nil {
		met *= b.unread(l, g)
		known = l.knownIn(g)
	}
	if met == 0 && known == 0 {
		return nil
	}
	chance := law.Happens(met)
	if known > 0 {
		chance = 1
		met += float64(known)
	}
	if !b.sys.Stop {
		if l.twin == none {
			b.tr.Add(model.Any, l.w*l.clean*chance)
		}
		l.clean *= 1 - chance
		b.skip(l.counts(), l.now, chance, met)
		return nil
	}
	if l.twin == none {
		beyond = b.stopped(l, g, l.w*chance)
	}
	l.w *= 1 - chance
	l.decay *= 1 - chance
	return beyond
}

// stopped counts the loss of a group by a defect, for a weight, and lets
// roulette decide whether the life is followed beyond it.
func (b *Simulator) stopped(l *line, g int, w float64) *line {
	if w == 0 {
		return nil
	}
	if !l.lost {
		b.firstLoss(l, l.now, w, model.Unreadable)
		for range b.marksPassed(w) {
			b.catch(l, history.Loss{At: l.now, By: history.ByDefect, Group: g})
		}
	}
	b.tr.Add(model.Any, w*l.clean)
	s := g / b.sys.GroupsPerSet
	until := l.now + b.drawRestart(l.now)
	b.tallyLoss(l, l.now, s, until, w, true)
	c := b.beyond(l, s, w)
	if c != nil {
		b.takeDown(c, s, until)
	}
	return c
}

// restored puts the drive whose rebuild has ended back. It reports whether the line
// goes on.
func (b *Simulator) restored(l *line, i int) bool {
	g := l.down[i].group
	l.down = append(l.down[:i], l.down[i+1:]...) // the order is the queue's
	grp := &l.groups[g]
	if l.twin == g {
		b.end(l)
		return false
	}
	b.tr.Add(model.Rebuilds, l.counts())
	grp.level--
	if grp.shadow && l.twin == none && b.effort.Seconds > manySeconds && !b.byLot(l, l.nominal(), 1-grp.lot) {
		b.end(l)
		return false
	}
	grp.shadow = false
	if !b.leaveFork(l, g, grp.level) { // as most do, before there is more to be done
		b.end(l)
		return false
	}
	l.addDrive(b, g)
	b.noteRestored(l, g)
	b.cleared(l, g) // the rebuild has read the whole group
	if grp.level == 0 {
		l.calm += grp.original
	}
	l.sawAllRun()
	if len(l.ratios) == 0 {
		l.main = true // as good as the line that it left
	}
	if !b.sys.Repair.Parallel {
		b.startQueued(l, g)
	}
	return true
}

// manySeconds is how many failures beside another a life must have for its line to be decided
// on after each. Of fewer the line may keep what is left of its weight: to lose all of it
// seldom widens what is seen seldom.
const manySeconds = 0.5

// leaveFork holds a line that is back at the level of a group at which it branched
// off against the weight there. It reports whether the line goes on.
func (b *Simulator) leaveFork(l *line, g, level int) bool {
	if b.states != nil {
		return l.twin == spareTwin || b.leaveForks(l)
	}
	for i := range l.ratios {
		if r := l.ratios[i]; r.group == g && r.level == level {
			l.ratios = append(l.ratios[:i], l.ratios[i+1:]...)
			return b.byLot(l, l.nominal()/r.share, r.lot)
		}
	}
	return true
}

// takeDown makes a set lost from now until then.
func (b *Simulator) takeDown(l *line, s int, until float64) {
	set := &l.sets[s]
	set.down, set.until = true, until
	l.downSets++
	l.lost, l.clean = true, 0
	per := b.sys.GroupsPerSet
	kept := l.down[:0]
	for _, d := range l.down {
		if d.group/per != s {
			kept = append(kept, d)
		}
	}
	l.down = kept
	left := l.ratios[:0]
	for _, r := range l.ratios {
		if r.group/per != s {
			left = append(left, r)
		}
	}
	l.ratios = left
	for g := s * per; g < (s+1)*per; g++ {
		grp := &l.groups[g]
		if grp.level == 0 {
			l.calm -= grp.original
		}
		grp.level, grp.shadow = 0, false
	}
	l.sharing.Change(&b.sys.Footage, l.now, len(l.sets)-l.downSets)
}

// restart makes a lost set start again, its failed drives replaced.
func (b *Simulator) restart(l *line, s int) {
	set := &l.sets[s]
	set.down, set.since = false, l.now
	l.downSets--
	per := b.sys.GroupsPerSet
	for g := s * per; g < (s+1)*per; g++ {
		grp := &l.groups[g]
		for grp.running < b.sys.Drives {
			l.addDrive(b, g)
		}
		l.calm += grp.original
		b.cleared(l, g)
	}
	l.sawAllRun()
	l.sharing.Change(&b.sys.Footage, l.now, len(l.sets)-l.downSets)
}
