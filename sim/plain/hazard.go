package plain

import (
	"math"
	"slices"

	"arrayodds/sim/law"
)

// A drive that runs stands a budget of hazard, drawn as it comes. When it fails follows
// from that, and is worked out again only where the hazards of its group change.

// asked is what the life was asked last. Drives that are as old as each other ask the
// same, and most are.
type asked struct {
	age, cumulative  float64
	from, used, over float64
}

// schedule works out when every drive fails, at the start of a life.
func (p *Simulator) schedule() {
	p.whole, p.last = p.life.Cumulative(p.sys.Horizon), asked{}
	if s := p.sys.Start; s != nil {
		p.whole = p.life.Cumulative(s.Oldest() + p.sys.Horizon)
	}
	p.queue.clear()
	for i := range p.drives {
		p.foresee(i)
	}
}

// foresee works out when a running drive fails, if its group stays as it is.
func (p *Simulator) foresee(i int) {
	at := p.failsAt(i)
	if at >= p.sys.Horizon {
		at = math.Inf(1) // never in this life
	}
	p.queue.set(i, at)
}

// failsAt returns when a running drive fails; +Inf where that is beyond the horizon or
// never.
func (p *Simulator) failsAt(i int) float64 {
	d := &p.drives[i]
	stands := d.budget / p.scale(i)
	if age := d.since - d.install; age > 0 && stands <= p.whole {
		if age != p.last.age {
			p.last.age, p.last.cumulative = age, p.life.Cumulative(age)
		}
		stands += p.last.cumulative
	}
	if stands > p.whole { // by the end no drive is older
		return math.Inf(1)
	}
	return math.Max(p.now, d.install+p.life.Age(stands))
}

// scale returns what multiplies a running drive's hazard.
func (p *Simulator) scale(i int) float64 {
	return p.rate * p.drives[i].batch * p.groups[p.groupOf(i)].factor
}

// charge takes from a running drive's budget what it has used up.
func (p *Simulator) charge(i int) {
	d := &p.drives[i]
	if used := p.now - d.since; used > 0 {
		age := d.since - d.install
		if age != p.last.from || used != p.last.used {
			p.last.from, p.last.used, p.last.over = age, used, p.life.Over(age, used)
		}
		d.budget = math.Max(0, d.budget-p.scale(i)*p.last.over)
	}
	d.since = p.now
}

// downTo notes that so many drives of a group are down. The hazards of the others may
// change with it.
func (p *Simulator) downTo(g, down int) {
	was := &p.groups[g]
	was.down = down
	if t := p.sys.Tolerance; t > 0 {
		k := slices.Index(p.bare, g)
		if bare := down == t; bare && k < 0 {
			p.bare = append(p.bare, g)
		} else if !bare && k >= 0 {
			p.bare = slices.Delete(p.bare, k, k+1)
		}
	}
	if down >= len(p.sys.Degraded) || p.sys.Degraded[down] == was.factor {
		return // of a group that is lost nothing fails
	}
	p.work(2 * p.sys.Drives) // the next event asks whether that was too much
	for i := g * p.sys.Drives; i < (g+1)*p.sys.Drives; i++ {
		if p.drives[i].state == running {
			p.charge(i)
		}
	}
	was.factor = p.sys.Degraded[down]
	for i := g * p.sys.Drives; i < (g+1)*p.sys.Drives; i++ {
		if p.drives[i].state == running {
			p.foresee(i)
		}
	}
}

// freeze keeps all drives of a set as they are.
func (p *Simulator) freeze(s int) {
	per := p.sys.GroupsPerSet
	p.work(per * p.sys.Drives)
	for g := s * per; g < (s+1)*per; g++ {
		if k := slices.Index(p.bare, g); k >= 0 {
			p.bare = slices.Delete(p.bare, k, k+1)
		}
		for i := g * p.sys.Drives; i < (g+1)*p.sys.Drives; i++ {
			if p.drives[i].state == running {
				p.charge(i)
			}
			p.queue.set(i, math.Inf(1))
		}
	}
}

// thaw lets the drives of a group go on that runs again, all of them.
func (p *Simulator) thaw(g int) {
	p.work(2 * p.sys.Drives)
	for i := g * p.sys.Drives; i < (g+1)*p.sys.Drives; i++ {
		p.drives[i].since = p.now
		p.foresee(i)
	}
}

// work counts the work to look at so many hazards of drives, which is light where they are
// the same for ever.
func (p *Simulator) work(hazards int) {
	if _, constant := p.life.(law.Constant); constant {
		hazards /= 4
	}
	p.tr.Work(hazards)
}
