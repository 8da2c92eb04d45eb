package splitting

import (
	"math"
	"sort"
)

// guess fills in the values of a system of which nothing is known yet: each failure that
// must follow comes within the time that the one before takes to be restored.
func (s *simulator) guess() {
	r := &s.sys.Repair
	n := float64(s.sys.Drives)
	life := s.usual
	spared, waited := r.Rebuild, r.Rebuild
	switch {
	case r.Restore != nil:
		spared, waited = r.Restore.Mean(), r.Restore.Mean()
	default:
		waited += r.Notice.Mean() + r.Response.Mean()
	}
	t, spares := s.sys.Tolerance, s.sys.Spares
	v := make([][]float64, t+2)
	for d := range v {
		v[d] = make([]float64, spares+2)
		if d == t+1 {
			for j := range v[d] {
				v[d][j] = 1
			}
		}
	}
	shocks := s.sys.ShockRate * s.sys.ShockChance
	for range 2 * (t + spares + 3) {
		for d := t; d >= 0; d-- {
			for j := spares; j >= 0; j-- {
				hours, rate := spared, (n-float64(d))*(life*s.sys.Degraded[d]+shocks)
				switch {
				case d == 0 && j == 0:
					hours, rate = s.sys.Horizon, rate*float64(len(s.window.hazard))
				case d == 0:
					hours, rate = r.Restock.Mean()/float64(j), rate*float64(len(s.window.hazard))
				case j == spares:
					hours = waited
				}
				after := v[d+1][min(j+1, spares)]
				if r.Restore != nil {
					after = v[d+1][j]
				}
				v[d][j] = math.Max(v[d][j], math.Min(1, rate*math.Max(hours, 0.01))*after)
				if d > 0 {
					v[d][j] = math.Max(v[d][j], v[0][j])
				}
				if j > 0 {
					v[d][j] = math.Max(v[d][j], v[d][j-1])
				}
			}
		}
	}
	s.values, s.known = make([]float64, s.classes()), make([]bool, s.classes())
	for c := range s.values {
		worst, out, others, bin := s.parts(class(c))
		x := v[worst][out]
		if worst > 0 && bin < noneAt {
			x = math.Max(x*math.Min(1, math.Ldexp(1, bin-2)/waited), v[0][out])
		}
		s.values[c] = math.Max(x, 1e-250) * float64(1+others)
	}
}

// jumps are what pilots count.
type jumps struct {
	from    class
	visits  []float64
	weights []float64 // by class: of all visits
	moved   map[jump]float64
}

type jump struct{ from, to class }

func newJumps(classes int) *jumps {
	return &jumps{visits: make([]float64, classes), weights: make([]float64, classes), moved: map[jump]float64{}}
}

// leaves notes what a line is before it jumps.
func (s *simulator) leaves(l *line) {
	if j := s.jumps; j != nil {
		j.from = s.classOf(l)
		j.visits[j.from]++
		j.weights[j.from] += l.weight * s.factor(l, j.from) / s.fate0
	}
}

// jumped notes that of what left a class so much came to another one.
func (s *simulator) jumped(to class, weight float64) {
	if j := s.jumps; j != nil && weight > 0 {
		j.moved[jump{j.from, to}] += weight / s.fate0
	}
}

// solve makes values of what pilots counted: that of a class is the mean of those that
// lines jump to. A class that was seldom seen keeps some of the value that it had.
func (s *simulator) solve() {
	const trust = 3 // visits that the value before counts as
	j := s.jumps
	type entry struct {
		jump
		weight float64
	}
	entries := make([]entry, 0, len(j.moved))
	for k, w := range j.moved {
		entries = append(entries, entry{k, w})
	}
	sort.Slice(entries, func(a, b int) bool {
		x, y := entries[a].jump, entries[b].jump
		return x.from > y.from || x.from == y.from && x.to < y.to
	})
	before := append([]float64(nil), s.values...)
	for range 400 {
		for i := 0; i < len(entries); {
			from, sum := entries[i].from, 0.0
			for ; i < len(entries) && entries[i].from == from; i++ {
				switch to := entries[i].to; to {
				case lost:
					sum += entries[i].weight
				default:
					sum += entries[i].weight * s.values[to]
				}
			}
			prior := j.weights[from] / j.visits[from] * trust
			s.values[from] = math.Max(1e-280, (sum+prior*before[from])/(j.weights[from]+prior))
		}
	}
	s.borrow()
}

// enough visits make a value good.
const enough = 30

// borrow gives a class that was seldom seen the greatest value of the well-known ones
// with as many drives down, of the same bin of time if there are any. One that is far
// too low would have the rare line that comes there killed, and once in a while leave it
// with a great weight.
func (s *simulator) borrow() {
	j := s.jumps
	alike := make([]float64, (s.sys.Tolerance+1)*bins)
	any := make([]float64, s.sys.Tolerance+1)
	for c, n := range j.visits {
		if n >= enough {
			worst, _, _, bin := s.parts(class(c))
			alike[worst*bins+bin] = math.Max(alike[worst*bins+bin], s.values[c])
			any[worst] = math.Max(any[worst], s.values[c])
		}
	}
	for c, n := range j.visits {
		s.known[c] = n >= enough
		if s.known[c] {
			continue
		}
		worst, _, _, bin := s.parts(class(c))
		if x := alike[worst*bins+bin]; x > 0 {
			s.values[c] = math.Max(s.values[c], x)
		} else {
			s.values[c] = math.Max(s.values[c], any[worst])
		}
	}
}
