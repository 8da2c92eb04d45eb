package branch

import "math"

// pickSource chooses the group that fails x hours from now, in proportion to
// the hazards then.
func (b *Simulator) pickSource(l *line, sources []source, x float64) int {
	if len(sources) == 1 {
		return sources[0].group
	}
	total := 0.0
	for i := range sources {
		total += b.rateOf(l, &sources[i], x)
	}
	left := b.rnd.Float64() * total
	for i := range sources {
		if left -= b.rateOf(l, &sources[i], x); left < 0 {
			return sources[i].group
		}
	}
	return sources[len(sources)-1].group
}

func (b *Simulator) rateOf(l *line, s *source, x float64) float64 {
	r := b.rateAt(l, s.group, x)
	if b.sys.Stop {
		r += s.unread / b.win.dt
	}
	return r
}

// when finds after how many hours the sources' cumulative hazard reaches
// target, where over the window it is total.
func (b *Simulator) when(l *line, sources []source, target, total float64) float64 {
	dt := b.win.dt
	x := dt * min(1, target/total)
	if b.perHour > 0 {
		return x
	}
	low, high := 0.0, dt
	for range 60 {
		h, rate := 0.0, 0.0
		for i := range sources {
			s := &sources[i]
			h += b.over(l, s.group, x)
			rate += b.rateAt(l, s.group, x)
			if b.sys.Stop {
				h += s.unread * x / dt
				rate += s.unread / dt
			}
		}
		if h < target {
			low = x
		} else {
			high = x
		}
		next := x - (h-target)/rate
		if !(next >= low && next <= high) {
			next = (low + high) / 2
		}
		if math.Abs(next-x) <= 1e-9*dt {
			return next
		}
		x = next
	}
	return x
}
