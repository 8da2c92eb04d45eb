package branch

import "arrayodds/sim/law"

// crowd is the hazard of those young drives of a group that are so old that it is a
// polynomial for some time. With it a window of a large group looks at the youngest only.
type crowd struct {
	law.Crowd
	group int
	at    float64 // the time that it is about
	hours float64 // before and after, for which it is good
}

const (
	fewYoung     = 16  // drives in a group that need no crowd
	crowdWindows = 3.0 // windows like the one that it is gathered for, for which it is good
)

// gathered reports whether the line has the crowd of a group from now on for x hours. It
// is gathered where it is not there.
func (b *Simulator) gathered(l *line, g int, x float64) bool {
	grp := &l.groups[g]
	if b.life.Ageing == nil || grp.running-grp.original < fewYoung {
		return false
	}
	c := &l.crowd
	if c.Drives == 0 || c.group != g || l.now < c.at-c.hours || l.now+x > c.at+c.hours {
		b.gather(l, g, crowdWindows/2*x)
	}
	return true
}

// gather makes the crowd of a group that is good from now on for twice so many hours.
func (b *Simulator) gather(l *line, g int, hours float64) {
	l.crowd = crowd{group: g, at: l.now + hours, hours: hours}
	for i := range l.young {
		y := &l.young[i]
		age := l.crowd.at - y.install
		y.crowded = y.group == g && b.life.Ageing.Fits(age, hours)
		if y.crowded {
			b.life.Ageing.Join(&l.crowd.Crowd, &y.near, age, y.batch)
		}
	}
}

// leaveCrowd takes a drive out of the crowd, if it is in it.
func (b *Simulator) leaveCrowd(l *line, y *youngDrive) {
	c := &l.crowd
	if y.crowded && c.Drives > 0 && !b.life.Ageing.Leave(&c.Crowd, &y.near, c.at-y.install, y.batch) {
		*c = crowd{}
	}
}
