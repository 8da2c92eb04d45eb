package plain

import (
	"math"
	"slices"

	"arrayodds/sim/history"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// fail is the failure of one running drive.
func (p *Simulator) fail(i int) {
	p.breakDown(i)
	g := p.groupOf(i)
	if p.groups[g].down > p.sys.Tolerance {
		p.lose(g, p.sys.CauseOfFailure(p.waits(g)))
		return
	}
	if p.meetDefects(g) {
		return
	}
	p.repair(i)
}

func (p *Simulator) breakDown(i int) {
	p.failures++
	p.tr.Add(model.Failures, 1)
	p.drives[i].state = failed
	p.queue.set(i, math.Inf(1))
	g := p.groupOf(i)
	p.groups[g].failed = append(p.groups[g].failed, i)
	p.downTo(g, p.groups[g].down+1)
	p.noteDrive(history.Fails, i)
}

// meetDefects looks for latent defects where a group has just come to its tolerance.
// It reports whether the group was lost to one.
func (p *Simulator) meetDefects(g int) bool {
	if p.groups[g].down < p.sys.Tolerance || p.sys.LatentRate == 0 && p.sys.Start == nil {
		return false
	}
	met := p.known(g)
	if p.sys.LatentRate > 0 {
		for range p.sys.Drives - p.groups[g].down {
			met += p.unread(g, p.defects(p.now-p.groups[g].cleared))
		}
	}
	if met == 0 {
		return false
	}
	if p.sys.Stop {
		p.noteGroup(history.MeetsDefects, g)
		p.lose(g, model.Unreadable)
		return true
	}
	p.skip(met)
	return false
}

// defects returns the number present on one drive, since hours after they were last
// cleared: each is born at a random time and stays for its dwell.
func (p *Simulator) defects(since float64) (present int) {
	for born := p.rnd.Exp() / p.sys.LatentRate; born < since; born += p.rnd.Exp() / p.sys.LatentRate {
		if p.sys.Scrub == nil || born+p.sys.Scrub.Draw(p.rnd) > since {
			present++
		}
	}
	return present
}

// skip loses a stripe for each unreadable sector.
func (p *Simulator) skip(sectors int) {
	p.firstIncident()
	p.tr.Add(model.Incidents, 1)
	p.tr.Add(model.Stripes, float64(sectors))
	if p.sys.Footage.Cameras() {
		destroyed, missing := p.sys.Footage.Stripe(p.now)
		p.tr.Add(model.Destroyed, float64(sectors)*destroyed)
		p.tr.Add(model.MissingSectors, float64(sectors)*missing)
	}
}

func (p *Simulator) firstIncident() {
	if !p.incident {
		p.incident = true
		p.tr.Add(model.Any, 1)
	}
}

// sector is a read error met in a rebuild.
func (p *Simulator) sector(g int) {
	if p.sys.Stop {
		p.noteDrive(history.MeetsSector, p.firstRebuild(g))
		p.lose(g, model.Unreadable)
		return
	}
	p.skip(1)
}

// repair sends a failed drive on its way back.
func (p *Simulator) repair(i int) {
	d := &p.drives[i]
	r := &p.sys.Repair
	d.state, d.at = queued, p.now
	switch {
	case r.Restore != nil:
		p.startNext(p.groupOf(i))
	case p.takeSpare():
		back := p.now + p.wait(&r.Restock, p.now)
		p.returns = append(p.returns, back)
		p.noteUntil(history.TakesSpare, i, back)
		p.startNext(p.groupOf(i))
	default:
		d.state = waiting
		p.until(i, p.now+p.callOut())
	}
}

// until notes when the wait of a drive or its rebuild ends.
func (p *Simulator) until(i int, at float64) {
	p.drives[i].at = at
	p.queue.set(i, at)
}

func (p *Simulator) takeSpare() bool {
	for i := 0; i < len(p.returns); i++ {
		if p.returns[i] <= p.now {
			p.returns = append(p.returns[:i], p.returns[i+1:]...)
			p.free++
			i--
		}
	}
	if p.free == 0 {
		return false
	}
	p.free--
	return true
}

// callOut returns notice and response, from now on.
func (p *Simulator) callOut() float64 {
	notice := p.sys.Repair.Notice.Draw(p.rnd)
	return notice + p.wait(&p.sys.Repair.Response, p.now+notice)
}

func (p *Simulator) wait(w *model.Wait, from float64) float64 {
	if w.Open != nil {
		return w.Open.From(math.Mod(p.phase+from, law.WeekHours))
	}
	return w.Law.Draw(p.rnd)
}

// startNext starts the rebuilds of a group that may start now.
func (p *Simulator) startNext(g int) {
	for {
		next, busy := -1, false
		for _, i := range p.groups[g].failed {
			d := &p.drives[i]
			busy = busy || d.state == rebuilding
			if d.state == queued && (next < 0 || d.at < p.drives[next].at || d.at == p.drives[next].at && i < next) {
				next = i
			}
		}
		if next < 0 || busy && !p.sys.Repair.Parallel {
			return
		}
		length := p.sys.Repair.Rebuild
		if r := p.sys.Repair.Restore; r != nil {
			length = r.Draw(p.rnd)
		}
		p.rebuild(next, length)
	}
}

func (p *Simulator) rebuild(i int, length float64) {
	d := &p.drives[i]
	d.state, d.begun, d.length = rebuilding, p.now, length
	p.until(i, p.now+length)
	p.noteUntil(history.Rebuilds, i, d.at)
}

// proceed is the end of a drive's wait or of its rebuild.
func (p *Simulator) proceed(i int) {
	if p.drives[i].state == waiting {
		p.ready(i)
	} else {
		p.restored(i)
	}
	p.startNext(p.groupOf(i))
}

func (p *Simulator) ready(i int) {
	p.drives[i].state, p.drives[i].at = queued, p.now
	p.queue.set(i, math.Inf(1))
	p.noteDrive(history.Arrives, i)
}

func (p *Simulator) restored(i int) {
	p.replace(i)
	g := p.groupOf(i)
	p.groups[g].cleared = p.now
	failed := p.groups[g].failed
	k := slices.Index(failed, i)
	p.groups[g].failed = slices.Delete(failed, k, k+1)
	p.foresee(i)
	p.downTo(g, p.groups[g].down-1)
	p.tr.Add(model.Rebuilds, 1)
	p.noteDrive(history.Restored, i)
	p.rebuilt(g)
}

func (p *Simulator) replace(i int) {
	p.drives[i] = drive{install: p.now, since: p.now, budget: p.rnd.Exp(), batch: p.frailty()}
}

// waits reports whether a failed drive of a group waits.
func (p *Simulator) waits(g int) bool {
	return slices.ContainsFunc(p.groups[g].failed, func(i int) bool { return p.drives[i].state == waiting })
}

// lose is the loss of a set with its group g.
func (p *Simulator) lose(g int, by model.Cause) {
	s, bySector := g/p.sys.GroupsPerSet, by == model.Unreadable
	if !p.lost {
		p.lost = true
		p.tr.FirstLoss(p.now, 1, by)
		if math.IsInf(p.allRan, 1) {
			p.tr.Add(model.LossBeforeWhole, 1)
		}
	}
	p.firstIncident()
	p.tr.Add(model.LossEvents, 1)
	p.tr.Add(model.Incidents, 1)
	p.freeze(s)
	p.downs++
	p.sets[s].down, p.sets[s].until = true, p.now+p.restartAfter()
	p.noteLoss(g, bySector)
	p.tallyFootage(s, bySector)
	p.sharing.Change(&p.sys.Footage, p.now, p.up())
}

func (p *Simulator) restartAfter() float64 {
	if r := p.sys.Repair.Restore; r != nil {
		return r.Draw(p.rnd)
	}
	return p.callOut()
}

func (p *Simulator) up() (n int) {
	for i := range p.sets {
		if !p.sets[i].down {
			n++
		}
	}
	return n
}

func (p *Simulator) tallyFootage(s int, bySector bool) {
	f := &p.sys.Footage
	if !f.Cameras() {
		return
	}
	destroyed, missing := f.Loss(p.now, p.sets[s].since, &p.sharing)
	if p.up() == 0 {
		first := math.Inf(1)
		for i := range p.sets {
			first = math.Min(first, p.sets[i].until)
		}
		missing += f.Pause(p.now, first-p.now)
	}
	p.tr.Add(model.Destroyed, destroyed)
	p.tr.SetLost(destroyed, 1)
	if bySector {
		p.tr.Add(model.MissingSectors, missing)
	} else {
		p.tr.Add(model.MissingDrives, missing)
	}
}

// restart replaces the failed drives of a lost set and starts it again, empty.
func (p *Simulator) restart(s int) {
	p.downs--
	p.sets[s].down, p.sets[s].since = false, p.now
	per := p.sys.GroupsPerSet
	for g := s * per; g < (s+1)*per; g++ {
		slices.Sort(p.groups[g].failed)
		for _, i := range p.groups[g].failed {
			p.replace(i)
		}
		p.groups[g] = group{failed: p.groups[g].failed[:0], factor: p.sys.Degraded[0], cleared: p.now}
		p.forget(g)
		p.thaw(g)
	}
	p.sharing.Change(&p.sys.Footage, p.now, p.up())
	p.noteStart(s)
	p.sawWhole()
}

// commonCause strikes the sets that are up, all their drives at once.
func (p *Simulator) commonCause() {
	p.tr.Work(len(p.drives) / 16) // the next event asks whether that was too much
	struck := p.struck
	for g := range p.groups {
		struck[g] = struck[g][:0]
		if p.sets[g/p.sys.GroupsPerSet].down {
			continue
		}
		for i := g * p.sys.Drives; i < (g+1)*p.sys.Drives; i++ {
			if p.drives[i].state == running && p.rnd.Float64() < p.sys.ShockChance {
				struck[g] = append(struck[g], i)
			}
		}
	}
	p.strike(struck)
}

// strike makes drives fail all at once; struck lists them by group.
func (p *Simulator) strike(struck [][]int) {
	p.noteCommon(struck)
	per := p.sys.GroupsPerSet
	for s := range p.sets {
		if p.sets[s].down {
			continue
		}
		lost := -1
		for g := s * per; g < (s+1)*per; g++ {
			for _, i := range struck[g] {
				p.breakDown(i)
			}
			if lost < 0 && p.groups[g].down > p.sys.Tolerance {
				lost = g
			}
		}
		if lost >= 0 {
			p.lose(lost, model.CommonCause)
			for g := s * per; g < (s+1)*per; g++ {
				struck[g] = struck[g][:0]
			}
		}
	}
	p.afterStrike(struck)
}

// afterStrike sends the drives that were struck in groups that stand it on their
// way back.
func (p *Simulator) afterStrike(struck [][]int) {
	for g, drives := range struck {
		if len(drives) == 0 || p.sets[g/p.sys.GroupsPerSet].down || p.meetDefects(g) {
			continue
		}
		for _, i := range drives {
			p.repair(i)
		}
	}
}
