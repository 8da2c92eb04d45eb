package splitting

import (
	"math"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"

	"gonum.org/v1/gonum/stat/distuv"
)

// simulator simulates lives of one system.
type simulator struct {
	sys    *model.System
	rnd    *stream.Stream
	values []float64   // by class
	known  []bool      // by class: whether pilots came there often
	usual  float64     // failures per drive-hour, on average over a usual life
	rest   []float64   // see left
	fatal  []float64   // by drives down: that common cause takes too many of a group
	struck [][]float64 // by drives down: chances of how many it takes where it does not
	jumps  *jumps      // where they are counted

	fate   fate
	fate0  float64 // weight of the life at its start
	window window
	loss   float64 // of the life
	work   int     // windows looked at
	stack  []*line
	unused []*line
}

func newSimulator(sys *model.System) *simulator {
	groups := sys.Groups()
	s := &simulator{sys: sys}
	s.window.hazard, s.window.raise = make([]float64, groups), make([]float64, groups)
	s.prepareLeft()
	s.guess()
	if sys.ShockRate > 0 {
		for down := 0; down <= sys.Tolerance; down++ {
			b := distuv.Binomial{N: float64(sys.Drives - down), P: sys.ShockChance}
			var chances []float64
			safe := 0.0
			for k := 0; k <= min(sys.Tolerance-down, sys.Drives-down); k++ {
				chances = append(chances, b.Prob(float64(k)))
				safe += chances[k]
			}
			for k := range chances {
				chances[k] /= safe
			}
			fatal := 0.0
			for k := sys.Tolerance - down + 1; k <= sys.Drives-down; k++ {
				fatal += b.Prob(float64(k))
			}
			s.fatal, s.struck = append(s.fatal, fatal), append(s.struck, chances)
		}
	}
	return s
}

// life simulates one life with the numbers of a stream, and returns the weight of its
// losses. Where it takes more than so many windows, none for 0, it is cut short.
func (s *simulator) life(rnd *stream.Stream, most int) float64 {
	s.rnd, s.loss, s.work = rnd, 0, 0
	l := s.get()
	l.begin(s.sys.Groups(), s.sys.Drives)
	l.weight = s.drawFate()
	s.fate0 = l.weight
	level := l.weight * s.valueOf(l)
	s.stack = append(s.stack[:0], l)
	for len(s.stack) > 0 {
		l := s.stack[len(s.stack)-1]
		s.stack = s.stack[:len(s.stack)-1]
		for s.move(l) && s.balance(l, level) {
			if s.work++; s.work == most {
				s.unused = append(s.unused, s.stack...)
				s.stack = s.stack[:0]
				break
			}
		}
		s.unused = append(s.unused, l)
	}
	return s.loss
}

func (s *simulator) get() *line {
	if n := len(s.unused); n > 0 {
		l := s.unused[n-1]
		s.unused = s.unused[:n-1]
		return l
	}
	return new(line)
}

// move takes a line on by a jump. It reports whether the line is still within the
// horizon.
func (s *simulator) move(l *line) bool {
	s.leaves(l)
	for i := range l.groups {
		if l.groups[i].pending > 0 {
			s.sendForRepair(l)
			s.arrives(l)
			return true
		}
	}
	if !s.advance(l) {
		return false
	}
	s.arrives(l)
	return true
}

func (s *simulator) arrives(l *line) {
	if s.jumps != nil {
		c := s.classOf(l)
		s.jumped(c, l.weight*s.factor(l, c))
	}
}

// balance splits a line that has more weight than its value is worth, and puts one with
// less to Russian roulette. It reports whether the line goes on.
func (s *simulator) balance(l *line, level float64) bool {
	ratio := l.weight * s.valueOf(l) / level
	switch {
	case ratio > 2:
		n := int(math.Min(ratio, 100) + s.rnd.Float64())
		l.weight /= math.Min(ratio, 100)
		for range n - 1 {
			c := s.get()
			l.copyTo(c)
			s.stack = append(s.stack, c)
		}
	case ratio < 0.5:
		stays := math.Max(ratio, 1e-3)
		if !s.known[s.classOf(l)] {
			stays = math.Max(ratio, 0.2)
		}
		if s.rnd.Float64() >= stays {
			return false
		}
		l.weight /= stays
	}
	return true
}

// drawFate draws what holds for a whole life, and returns its weight.
func (s *simulator) drawFate() (weight float64) {
	f := &s.fate
	*f = fate{phase: s.rnd.Float64() * law.WeekHours, life: s.sys.Life, rate: 1, batch: 1}
	weight = 1
	if s.sys.Fitted != nil {
		f.life = s.sys.Fitted.Draw(s.rnd)
	}
	if a := s.sys.Uncertain; a > 0 {
		x, w := s.gamma(a)
		f.rate, weight = x, weight*w
	}
	if v := s.sys.Frailty; v > 0 {
		x, w := s.gamma(1 / v)
		f.batch, weight = v*x, weight*w
	}
	return weight
}

// gamma draws from a mixture of Gamma(a), Gamma(a + t + 1) and Gamma(a + t + 1 + spares),
// and returns the weight that makes it a Gamma(a).
func (s *simulator) gamma(a float64) (x, weight float64) {
	raise := [3]float64{0, float64(s.sys.Tolerance + 1), float64(s.sys.Tolerance + 1 + s.sys.Spares)}
	x = s.rnd.Gamma(a + raise[s.rnd.Intn(3)])
	mixture := 0.0
	base, _ := math.Lgamma(a)
	for _, r := range raise {
		g, _ := math.Lgamma(a + r)
		mixture += math.Exp(r*math.Log(x)+base-g) / 3
	}
	return x, 1 / mixture
}
