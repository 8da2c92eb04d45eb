package branch

import (
	"math"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// firstBatch returns the shape and the scale of the Gamma law of what multiplies the
// hazards of the batch that all came with; 0 for no such law.
func (b *Simulator) firstBatch() (shape, scale float64) {
	if s := b.sys.Start; s != nil && s.Shape > 0 {
		return s.Shape, s.Scale
	}
	if v := b.sys.Frailty; v > 0 {
		return 1 / v, v
	}
	return 0, 0
}

// deal puts the drives of time zero into a new line, each with its batch's frailty: among
// its young drives, installed at hour 0, as no two need be alike.
func (b *Simulator) deal(l *line) {
	most := b.life.MaxRate(0, b.sys.Horizon)
	l.calm = 0
	for g := range l.groups {
		l.groups[g].original = 0
		for i := range b.sys.Drives {
			batch := b.dealt.Frailty(g*b.sys.Drives + i)
			l.young = append(l.young, youngDrive{group: g, batch: batch, bound: batch * most})
		}
	}
}

// firstFrom starts the life's main line in the state in which the system begins. Where
// drives are down nothing of it is forced but what happens while they are, as ever.
func (b *Simulator) firstFrom(l *line, weight float64) {
	s := b.sys.Start
	l.now, l.w, l.decay, l.free, l.ran = 0, weight, 1, s.Free, b.quietStart
	for _, back := range s.Returns {
		if math.IsNaN(back) {
			back = b.drawWait(&b.sys.Repair.Restock, 0)
		}
		l.returns = append(l.returns, back)
	}
	for g := range l.groups {
		l.groups[g].cleared = -s.Cleared[g]
	}
	if b.quietStart && b.perHour > 0 {
		b.first(l, weight)
		return
	}
	b.tr.Control(model.Multipliers, weight-1)
	b.life.Keep(&l.near, 0, 0)
	for g := range l.groups {
		b.beginGroup(l, g, s.Drives[g*b.sys.Drives:(g+1)*b.sys.Drives])
	}
	if b.quietStart {
		b.firstOfAges(l, weight)
		return
	}
	b.push(l)
	b.sendBack(l, 0)
}

// firstOfAges starts the main line of a life in which drives of known ages run at the first
// candidate for a failure: candidates come at the sum of the drives' bounds (see
// nextYoung), and that there is one is forced, as the first failure of [Simulator.first]
// is. Where it does not count the line goes on from there as it is. Where a drive has no
// bound nothing is forced.
func (b *Simulator) firstOfAges(l *line, weight float64) {
	bounds := 0.0
	for i := range l.young {
		bounds += b.rate * l.young[i].bound
	}
	if math.IsInf(bounds, 1) {
		b.push(l)
		return
	}
	chance := law.Happens(bounds * b.sys.Horizon)
	b.forceFirst(l, weight, chance, func(x float64) float64 { return bounds * x })
	if chance == 0 {
		b.release(l)
		return
	}
	l.now = min(law.HazardOf(b.stratified(0)*chance)/bounds, math.Nextafter(b.sys.Horizon, 0))
	b.decayTo(l)
	i := b.pickYoung(l, 0, func(y *youngDrive) float64 { return y.bound })
	if y := &l.young[i]; b.rnd.Float64()*y.bound < b.rateOf(l, y, 0) {
		l.strikes, l.struck = y.group, i
	}
	b.push(l)
}

// sendBack sends the drives of a line that are down as it begins on their way back, from
// a group on. A line that goes on beyond a loss has that of its later groups to do.
func (b *Simulator) sendBack(l *line, from int) {
	for g := from; g < len(l.groups); g++ {
		if l.groups[g].level == 0 || l.sets[g/b.sys.GroupsPerSet].down {
			continue
		}
		if l.groups[g].level == b.sys.Tolerance {
			if beyond := b.reach(l, g); beyond != nil {
				b.sendBack(beyond, g+1)
			}
		}
		b.repairGroup(l, g, b.sys.Start.Drives[g*b.sys.Drives:(g+1)*b.sys.Drives])
	}
}

// beginGroup puts the drives of a group into a line.
func (b *Simulator) beginGroup(l *line, g int, drives []model.StartDrive) {
	grp := &l.groups[g]
	l.calm -= grp.original
	grp.original, grp.running = 0, 0
	for i := range drives {
		d := &drives[i]
		if d.Down {
			grp.level++
			continue
		}
		grp.running++
		if b.perHour > 0 {
			grp.original++
			continue
		}
		batch := b.batch
		if !d.First {
			batch = b.ownBatch()
		}
		l.young = append(l.young, youngDrive{
			group: g, install: -d.Age, batch: batch, known: d.Defects,
			bound: batch * b.life.MaxRate(d.Age, b.sys.Horizon),
		})
	}
	if grp.level == 0 {
		l.calm += grp.original
	}
}

// resumeGroup goes on with the rebuilds of a group that run.
func (b *Simulator) resumeGroup(l *line, g int, drives []model.StartDrive) {
	for i := range drives {
		d := &drives[i]
		if !d.Down || !d.Rebuilding {
			continue
		}
		length := b.sys.Repair.Rebuild
		if r := b.sys.Repair.Restore; r != nil {
			length = r.Draw(b.rnd)
		}
		l.down = append(l.down, downDrive{
			group: g, state: rebuilding, begun: -d.Done * length, length: length, at: (1 - d.Done) * length,
		})
	}
}

// repairGroup sends the drives of a group that are down and do not rebuild on their way
// back.
func (b *Simulator) repairGroup(l *line, g int, drives []model.StartDrive) {
	b.resumeGroup(l, g, drives)
	for i := range drives {
		d := &drives[i]
		if !d.Down || d.Rebuilding {
			continue
		}
		if b.sys.Repair.Restore != nil {
			b.repairAlone(l, g)
			continue
		}
		if l.takeSpare() {
			b.enterSpare(l, g, b.drawWait(&b.sys.Repair.Restock, 0))
			continue
		}
		wait := d.Wait
		if d.Respond {
			wait = math.Max(wait, b.drawWait(&b.sys.Repair.Response, 0))
		}
		l.down = append(l.down, downDrive{group: g, state: waiting, at: wait})
	}
}

// unread returns the share of the defects of a group that are met: all, but for what a
// rebuild has read that runs as the life begins.
func (b *Simulator) unread(l *line, g int) float64 {
	if l.now > 0 {
		return 1
	}
	return model.Unread(b.sys.Start.Drives[g*b.sys.Drives : (g+1)*b.sys.Drives])
}

// knownIn returns the known defects on the running drives of a group.
func (l *line) knownIn(g int) (n int) {
	for i := range l.young {
		if l.young[i].group == g {
			n += l.young[i].known
		}
	}
	return n
}

// cleared notes that all of a group was read, or begins again.
func (b *Simulator) cleared(l *line, g int) {
	l.groups[g].cleared = l.now
	if b.sys.Start == nil {
		return
	}
	for i := range l.young {
		if l.young[i].group == g {
			l.young[i].known = 0
		}
	}
}

// sawAllRun notes it where all drives run.
func (l *line) sawAllRun() {
	if len(l.down) == 0 && l.downSets == 0 {
		l.ran = true
	}
}

// firstLoss adds a weight to the chance of a first loss on a line, at a time.
func (b *Simulator) firstLoss(l *line, at, weight float64, by model.Cause) {
	b.tr.FirstLoss(at, weight, by)
	if b.sys.Start != nil && !l.ran {
		b.tr.Add(model.LossBeforeWhole, weight)
	}
}
