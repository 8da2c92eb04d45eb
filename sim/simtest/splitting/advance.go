package splitting

import "math"

// window is the time up to the next event that is certain, and what may come before it.
type window struct {
	hours float64
	next  next
	group int // whose repair next is
	who   int

	hazard  []float64 // by group: cumulative over the window, of all running drives
	raise   []float64 // by group: what multiplies the hazard of failing; 0 where failing is a loss
	parts   []float64 // of hazard: by group the drives of time zero, then each young one
	shocks  float64   // common-cause events an hour that lose nothing
	raiseBy float64   // what multiplies them
	losses  float64   // an hour, of common cause and read errors
}

type next int

const (
	horizon next = iota
	repair
	spare
)

// look finds the window of a line.
func (s *simulator) look(l *line) {
	w := &s.window
	w.hours, w.next = s.sys.Horizon-l.now, horizon
	for i, at := range l.back {
		if at-l.now < w.hours {
			w.hours, w.next, w.who = math.Max(0, at-l.now), spare, i
		}
	}
	for g := range l.groups {
		for i, d := range l.groups[g].down {
			if d.doing != queued && d.at-l.now < w.hours {
				w.hours, w.next, w.group, w.who = math.Max(0, d.at-l.now), repair, g, i
			}
		}
	}
	w.losses, w.shocks = 0, 0
	logSafe := 0.0
	w.parts = w.parts[:0]
	for i := range l.groups {
		g := &l.groups[i]
		w.hazard[i] = s.over(l, g, w.hours, true)
		if s.sys.ShockRate > 0 {
			logSafe += math.Log1p(-s.fatal[len(g.down)])
		}
		if s.sys.Stop && s.sys.ReadErrors > 0 && len(g.down) == s.sys.Tolerance {
			if length := g.firstRebuild(); length > 0 {
				w.losses += s.sys.ReadErrors / length
			}
		}
	}
	if s.sys.ShockRate > 0 {
		w.losses += s.sys.ShockRate * -math.Expm1(logSafe)
		w.shocks = s.sys.ShockRate * math.Exp(logSafe)
	}
}

// over returns the hazard of a group's running drives over the next hours, and notes
// that of each part.
func (s *simulator) over(l *line, g *group, hours float64, note bool) float64 {
	f := &s.fate
	scale := f.rate * s.sys.Degraded[len(g.down)]
	sum := 0.0
	if g.fresh > 0 {
		sum = scale * f.batch * float64(g.fresh) * f.life.Over(l.now, hours)
	}
	if note {
		s.window.parts = append(s.window.parts, sum)
	}
	for _, d := range g.young {
		h := scale * d.batch * f.life.Over(l.now-d.install, hours)
		sum += h
		if note {
			s.window.parts = append(s.window.parts, h)
		}
	}
	return sum
}

// advance takes a line to its next event. It reports whether the line is still within
// the horizon.
func (s *simulator) advance(l *line) bool {
	s.look(l)
	s.raiseHazards(l)
	w := &s.window
	at, group, young, shock := w.hours, -1, -1, false
	part := 0
	for i := range l.groups {
		g := &l.groups[i]
		for k := -1; k < len(g.young); k++ {
			h := w.parts[part]
			part++
			if w.raise[i] == 0 || h == 0 {
				continue
			}
			if e := s.rnd.Exp() / w.raise[i]; e < h {
				if t := s.reached(l, g, k, e); t < at {
					at, group, young = t, i, k
				}
			}
		}
	}
	if w.shocks > 0 {
		if t := s.rnd.Exp() / (w.shocks * w.raiseBy); t < at {
			at, shock = t, true
		}
	}
	// The weight is that of the whole draw, event and all, before anything is added.
	switch {
	case shock:
		l.weight /= w.raiseBy
	case group >= 0:
		l.weight /= w.raise[group]
	}
	s.pass(l, at)
	switch {
	case shock:
		l.weight *= s.strike(l)
		for i := range l.groups {
			if g := &l.groups[i]; g.pending > 0 {
				s.atTolerance(l, g)
			}
		}
	case group >= 0:
		g := &l.groups[group]
		g.breakDown(young)
		s.atTolerance(l, g)
	case w.next == repair:
		s.proceed(l, &l.groups[w.group], w.who)
	case w.next == spare:
		l.back = append(l.back[:w.who], l.back[w.who+1:]...)
	default:
		return false
	}
	return true
}

// reached returns the hours after which a part of a group, the drives of time zero for
// −1, has used up that much hazard.
func (s *simulator) reached(l *line, g *group, young int, hazard float64) float64 {
	f := &s.fate
	scale := f.rate * s.sys.Degraded[len(g.down)]
	age := l.now
	if young < 0 {
		scale *= f.batch * float64(g.fresh)
	} else {
		age -= g.young[young].install
		scale *= g.young[young].batch
	}
	return math.Max(0, f.life.Age(f.life.Cumulative(age)+hazard/scale)-age)
}

// pass lets time go by without an event: the weight takes the ratio of the true hazards
// to the raised ones, and what the line may have lost meanwhile is added.
func (s *simulator) pass(l *line, hours float64) {
	w := &s.window
	if w.shocks > 0 {
		l.weight *= math.Exp((w.raiseBy - 1) * w.shocks * hours)
	}
	lost := w.losses * hours
	for i := range l.groups {
		h := w.hazard[i]
		if hours < w.hours {
			h = s.over(l, &l.groups[i], hours, false)
		}
		if w.raise[i] == 0 {
			lost += h
		} else if w.raise[i] != 1 {
			l.weight *= math.Exp((w.raise[i] - 1) * h)
		}
	}
	l.now += hours
	if lost > 0 {
		s.lose(l, -math.Expm1(-lost))
	}
}

// raiseHazards finds what multiplies the hazards in the window: about as many times as a
// line is worth more after the failure, but not so that failures become the rule.
func (s *simulator) raiseHazards(l *line) {
	const most = 1.0
	w := &s.window
	now := s.valueOf(l)
	sum, extra := 0.0, 0.0
	for i := range l.groups {
		g := &l.groups[i]
		if len(g.down) == s.sys.Tolerance {
			w.raise[i] = 0
			continue
		}
		w.raise[i] = 1
		if h := w.hazard[i]; h > 0 {
			g.pending = 1
			met := s.defectChance(l, g)
			after := met + (1-met)*s.valueOf(l)
			g.pending = 0
			w.raise[i] = math.Min(math.Max(1, after/now), math.Max(1, most/h))
			sum += h * w.raise[i]
			extra += h * (w.raise[i] - 1)
		}
	}
	w.raiseBy = 1
	if h := w.shocks * w.hours; h > 0 {
		w.raiseBy = math.Min(math.Max(1, s.valueOfShock(l)/now), math.Max(1, most/h))
		sum += h * w.raiseBy
		extra += h * (w.raiseBy - 1)
	}
	if sum > most && extra > 0 {
		keep := math.Max(0, 1-(sum-most)/extra)
		for i := range w.raise {
			if w.raise[i] > 1 {
				w.raise[i] = 1 + keep*(w.raise[i]-1)
			}
		}
		w.raiseBy = 1 + keep*(w.raiseBy-1)
	}
}
