package plain

import (
	"math"
	"slices"

	"arrayodds/sim/model"
)

// firstBatch draws what multiplies the hazards of the batch that all came with.
func (p *Simulator) firstBatch() float64 {
	p.allRan = 0
	if s := p.sys.Start; s != nil && s.Shape > 0 {
		return s.Scale * p.rnd.Gamma(s.Shape)
	}
	return p.frailty()
}

// beginAt turns a life that has just begun with all drives new into one that begins in a
// state.
func (p *Simulator) beginAt(s *model.Start, batch float64) {
	p.free = s.Free
	for _, back := range s.Returns {
		if math.IsNaN(back) {
			back = p.wait(&p.sys.Repair.Restock, 0)
		}
		p.returns = append(p.returns, back)
	}
	for g := range p.groups {
		p.groups[g].cleared = -s.Cleared[g]
	}
	for i := range s.Drives {
		from, d := &s.Drives[i], &p.drives[i]
		d.install, d.known, d.batch = -from.Age, from.Defects, batch
		if !from.First {
			d.batch = p.frailty()
		}
	}
	for i := range s.Drives {
		if !s.Drives[i].Down {
			p.foresee(i)
			continue
		}
		p.drives[i].state = failed
		p.queue.set(i, math.Inf(1))
		g := p.groupOf(i)
		p.groups[g].failed = append(p.groups[g].failed, i)
		p.downTo(g, p.groups[g].down+1)
	}
	p.sawWhole()
	for i := range s.Drives {
		if from := &s.Drives[i]; from.Down && from.Rebuilding {
			p.resume(i, from.Done)
		}
	}
	for g := range p.groups {
		if p.groups[g].down == 0 || p.sets[g/p.sys.GroupsPerSet].down || p.meetDefects(g) {
			continue
		}
		for i := g * p.sys.Drives; i < (g+1)*p.sys.Drives; i++ {
			if from := &s.Drives[i]; from.Down && !from.Rebuilding {
				p.repairFrom(i, from)
			}
		}
	}
}

// resume goes on with a rebuild of which a share is done.
func (p *Simulator) resume(i int, done float64) {
	length := p.sys.Repair.Rebuild
	if r := p.sys.Repair.Restore; r != nil {
		length = r.Draw(p.rnd)
	}
	d := &p.drives[i]
	d.state, d.begun, d.length = rebuilding, -done*length, length
	p.until(i, (1-done)*length)
}

// repairFrom sends a drive that is down as the life begins on its way back.
func (p *Simulator) repairFrom(i int, from *model.StartDrive) {
	if p.sys.Repair.Restore != nil || p.hasSpare() {
		p.repair(i)
		return
	}
	wait := from.Wait
	if from.Respond {
		wait = math.Max(wait, p.wait(&p.sys.Repair.Response, 0))
	}
	p.drives[i].state = waiting
	p.until(i, wait)
}

// hasSpare reports whether a hot spare is free.
func (p *Simulator) hasSpare() bool {
	return p.free > 0 || slices.ContainsFunc(p.returns, func(back float64) bool { return back <= p.now })
}

// known returns the known defects on the running drives of a group.
func (p *Simulator) known(g int) (n int) {
	if p.sys.Start == nil {
		return 0
	}
	for i := g * p.sys.Drives; i < (g+1)*p.sys.Drives; i++ {
		if p.drives[i].state == running {
			n += p.drives[i].known
		}
	}
	return n
}

// unread returns how many of the defects on a drive of a group are met: all, but for what
// a rebuild has read that runs as the life begins.
func (p *Simulator) unread(g, defects int) int {
	s := p.sys.Start
	if s == nil || p.now > 0 {
		return defects
	}
	left := model.Unread(s.Drives[g*p.sys.Drives : (g+1)*p.sys.Drives])
	met := 0
	for range defects {
		if p.rnd.Float64() < left {
			met++
		}
	}
	return met
}

// rebuilt notes that a rebuild has read a group.
func (p *Simulator) rebuilt(g int) {
	if p.sys.Start != nil {
		p.forget(g)
		p.sawWhole()
	}
}

// forget takes it that no defect of a group is known.
func (p *Simulator) forget(g int) {
	for i := g * p.sys.Drives; i < (g+1)*p.sys.Drives; i++ {
		p.drives[i].known = 0
	}
}

// sawWhole notes it where all drives run for the first time.
func (p *Simulator) sawWhole() {
	if p.sys.Start == nil || p.now > 0 && !math.IsInf(p.allRan, 1) {
		return
	}
	p.allRan = math.Inf(1)
	if p.downs > 0 || p.lost {
		return
	}
	for g := range p.groups {
		if p.groups[g].down > 0 {
			return
		}
	}
	p.allRan = p.now
}

// WholeAfter returns the hours after which all drives ran first in the life that was
// simulated last, of a system that begins in a state: 0 where they ran from the
// beginning, +Inf where they had not by the end, or footage was lost before.
func (p *Simulator) WholeAfter() float64 { return p.allRan }
