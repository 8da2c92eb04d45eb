package splitting

import "math"

// A class is what lines are told apart by.
type class int

// lost is the class of what is lost, ended that of what lives to the end.
const (
	lost  class = -1
	ended class = -2
)

const (
	elsewhere = 4 // numbers of drives down outside the worst group: 0 to 2, 3 and more
	bins      = 20
	pendingAt = bins - 1 // waits are not drawn yet
	noneAt    = bins - 2 // nothing is under way
)

// number returns the class of so many drives down in the worst group, spares out,
// drives down elsewhere, and of a bin of time.
func (s *simulator) number(worst, out, others, bin int) class {
	return class(((worst*(s.sys.Spares+1)+out)*elsewhere+min(others, elsewhere-1))*bins + bin)
}

// parts undoes number.
func (s *simulator) parts(c class) (worst, out, others, bin int) {
	k := int(c)
	bin, k = k%bins, k/bins
	others, k = k%elsewhere, k/elsewhere
	return k / (s.sys.Spares + 1), k % (s.sys.Spares + 1), others, bin
}

// classes returns how many there are.
func (s *simulator) classes() int {
	return (s.sys.Tolerance + 1) * (s.sys.Spares + 1) * elsewhere * bins
}

// classOf returns the class of a line.
func (s *simulator) classOf(l *line) class {
	worst, at, others, pending := 0, 0, 0, false
	for i := range l.groups {
		d := l.groups[i].downNow()
		others += d
		pending = pending || l.groups[i].pending > 0
		if d > worst {
			worst, at = d, i
		}
	}
	out := min(len(l.back), s.sys.Spares)
	if pending {
		return s.number(worst, out, others-worst, pendingAt)
	}
	soonest := math.Inf(1)
	if worst > 0 {
		for _, d := range l.groups[at].down {
			if d.doing != queued {
				soonest = math.Min(soonest, d.at-l.now)
			}
		}
	} else {
		for _, b := range l.back {
			soonest = math.Min(soonest, b-l.now)
		}
	}
	return s.number(worst, out, others-worst, binOf(soonest))
}

// binOf returns the bin of a time in hours: the first ends at a quarter of an hour, each
// further one at twice the time.
func binOf(hours float64) int {
	if math.IsInf(hours, 1) {
		return noneAt
	}
	if hours < 0.25 {
		return 0
	}
	return min(math.Ilogb(hours)+3, noneAt-1)
}

// valueOf returns about how likely a line is to end in a loss.
func (s *simulator) valueOf(l *line) float64 {
	c := s.classOf(l)
	return s.values[c] * s.factor(l, c)
}

// valueOfShock returns the same for the moment after a common-cause event, on average
// over what it does to the worst group.
func (s *simulator) valueOfShock(l *line) float64 {
	worst := 0
	for i := range l.groups {
		if len(l.groups[i].down) > len(l.groups[worst].down) {
			worst = i
		}
	}
	g := &l.groups[worst]
	sum := 0.0
	for k, p := range s.struck[len(g.down)] {
		g.pending = k
		met := 0.0
		if k > 0 {
			met = s.defectChance(l, g)
		}
		sum += p * (met + (1-met)*s.valueOf(l))
	}
	g.pending = 0
	return sum
}

// factor is what the value of a line has to do with how high its hazards are, against
// those of a usual life on average; where nothing is under way, with those of the time
// that is left.
func (s *simulator) factor(l *line, c class) float64 {
	worst, out, _, _ := s.parts(c)
	high := s.fate.rate * s.fate.batch
	further := s.sys.Tolerance + 1 - worst
	if worst == 0 && out == 0 {
		return s.power(high, further) * s.left(l.now)
	}
	hours := s.sys.Horizon / 256
	return s.power(high*s.fate.life.Over(l.now, hours)/hours/s.usual, further)
}

// power returns x^n, within a range that leaves the rest of a value its digits.
func (s *simulator) power(x float64, n int) float64 {
	p := 1.0
	for range n {
		p *= x
	}
	return math.Min(math.Max(p, 1e-30), 1e30)
}

// left returns what is left of the value of a life at its start.
func (s *simulator) left(now float64) float64 {
	x := now / s.sys.Horizon * steps
	i := min(int(x), steps-1)
	return math.Max(1e-3, s.rest[i]+(x-float64(i))*(s.rest[i+1]-s.rest[i]))
}

const steps = 256

// prepareLeft works out rest: the hazard of a usual life to the power of the failures
// that a loss takes, over the time that is left.
func (s *simulator) prepareLeft() {
	s.usual = s.sys.Life.Cumulative(s.sys.Horizon) / s.sys.Horizon
	s.rest = make([]float64, steps+1)
	step := s.sys.Horizon / steps
	for i := steps - 1; i >= 0; i-- {
		h := s.sys.Life.Over(float64(i)*step, step) / step / s.usual
		s.rest[i] = s.rest[i+1] + s.power(h, s.sys.Tolerance+1)
	}
	whole := s.rest[0]
	for i := range s.rest {
		s.rest[i] /= whole
	}
}
