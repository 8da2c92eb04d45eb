package branch

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/branch/timing"
	"arrayodds/sim/law"
)

// pickSource chooses the group that fails x hours from now, in proportion to
// the hazards then.
func (b *Simulator) pickSource(l *line, sources []source, x float64) int {
	if len(sources) == 1 {
		return sources[0].group
	}
	total := 0.0
	for i := range sources {
		total += b.rateOfSource(l, &sources[i], x)
	}
	left := b.rnd.Float64() * total
	for i := range sources {
		if left -= b.rateOfSource(l, &sources[i], x); left < 0 {
			return sources[i].group
		}
	}
	return sources[len(sources)-1].group
}

func (b *Simulator) rateOfSource(l *line, s *source, x float64) float64 {
	if s.even {
		return b.ends(s) / b.win.dt
	}
	r := b.rateAt(l, s.group, x)
	if b.sys.Stop {
		r += s.unread / b.win.dt
	}
	return r
}

// areEven reports whether the hazard of sources is the same all through the window.
func areEven(sources []source) bool {
	for i := range sources {
		if !sources[i].even {
			return false
		}
	}
	return true
}

// when returns after how many hours an event of the sources comes that lies at an even share
// of the window's chance of one, and that chance; total is their hazard over the window.
// Where the hazard hardly changes within the window, the hours are those at a constant one,
// and the chance that is returned makes up for it; where it is small too, they are that share
// of the window.
func (b *Simulator) when(l *line, sources []source, share, total float64) (x, chance float64) {
	dt := b.win.dt
	even := areEven(sources)
	steady := !even && b.steady(sources, total)
	if steady && total < slight {
		x = share * dt
		s := b.sourcesIn(l, sources, x)
		return x, s.Last * dt * elementary.Exp(-s.Over)
	}
	chance = law.Happens(total)
	target := law.HazardOf(share * chance)
	x = dt * min(1, target/total)
	switch {
	case even:
		return x, chance
	case steady:
		s := b.sourcesIn(l, sources, x)
		return x, chance * s.Last * dt / total * elementary.Exp(target-s.Over)
	}
	return b.reached(l, sources, target, x), chance
}

// slight is the hazard of a window that tells little of where in it an event comes.
const slight = 0.5

// steady reports whether the hazard of sources, over the window total, begins with about
// its mean.
func (b *Simulator) steady(sources []source, total float64) bool {
	first := 0.0
	for i := range sources {
		first += sources[i].first
		if b.sys.Stop {
			first += sources[i].unread / b.win.dt
		}
	}
	return math.Abs(first*b.win.dt/total-1) < 0.2
}

// sourcesIn returns the hazard of sources in the first x hours of the window.
func (b *Simulator) sourcesIn(l *line, sources []source, x float64) (sum law.Stretch) {
	for i := range sources {
		sum.Add(1, b.through(l, sources[i].group, x))
		if b.sys.Stop {
			sum.Add(sources[i].unread/b.win.dt, law.Stretch{Over: x, First: 1, Last: 1})
		}
	}
	return sum
}

// reached finds the hours after which the cumulative hazard of sources is target, from x on
// by Newton's method.
func (b *Simulator) reached(l *line, sources []source, target, x float64) float64 {
	return timing.Reached(b.win.dt, target, x, func(x float64) (over, next float64) {
		s := b.sourcesIn(l, sources, x)
		return s.Over, x - (s.Over-target)/s.Last
	})
}
