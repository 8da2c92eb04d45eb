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

// when returns after how many hours the sources' cumulative hazard reaches target, where
// over the window it is total, and the factor that the weight of an event then takes:
// where the hazard hardly changes within the window, the time is that of a constant one,
// and the factor is the ratio of the densities.
func (b *Simulator) when(l *line, sources []source, target, total float64) (x, factor float64) {
	dt := b.win.dt
	x = dt * min(1, target/total)
	switch {
	case areEven(sources):
		return x, 1
	case b.steady(sources, total):
		s := b.sourcesIn(l, sources, x)
		return x, s.Last * dt / total * elementary.Exp(total*x/dt-s.Over)
	}
	return b.reached(l, sources, target, x), 1
}

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
