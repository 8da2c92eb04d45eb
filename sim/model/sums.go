package model

import (
	"math"
	"sync/atomic"
)

// Sums adds trials up. Sums of different blocks add again: that one addition
// is all that workers, and parts of a run on several machines, need.
type Sums struct {
	N            float64
	Sum          Amounts
	Squares      Amounts
	Curve        []float64 // cumulative: first loss by the end of each year
	CurveSquares []float64
	Largest      float64      // largest single trial's loss chance
	Failures     Histogram    // drives failed in a life
	PerLoss      Histogram    // camera-hours of one loss, by lossBin
	Work         int64        // units, see Trial.Work
	MostWork     int64        // that these sums may take: set by who runs the trials
	Stop         *atomic.Bool // true where a run is given up
	FiguresOnly  bool         // the histograms are not kept
	trial        Trial
	perSwap      float64 // missing for each drive replaced
}

// NewSums returns empty sums for lives of a system, whose work is not bounded yet.
func NewSums(sys *System) *Sums {
	n := CurveLength(sys.Horizon)
	s := &Sums{MostWork: math.MaxInt64, Stop: new(atomic.Bool), perSwap: sys.Footage.PerSwap, Curve: make([]float64, n), CurveSquares: make([]float64, n)}
	s.trial = Trial{Curve: make([]float64, n), sums: s}
	return s
}

// Begin returns the trial that the next life adds to.
func (s *Sums) Begin() *Trial {
	t := &s.trial
	t.Amounts = Amounts{}
	clear(t.Curve)
	return t
}

// End adds the trial that Begin gave.
func (s *Sums) End() {
	t := &s.trial
	s.N++
	t.Amounts[MissingChance] = t.Amounts[MissingDrives] + t.Amounts[MissingSectors] + s.perSwap*t.Amounts[Failures]
	for q, x := range t.Amounts {
		s.Sum[q] += x
		s.Squares[q] += x * x
	}
	if y := t.Amounts[Loss]; y > 0 {
		s.Largest = math.Max(s.Largest, y)
		sofar := 0.0
		for i, x := range t.Curve {
			sofar += x
			s.Curve[i] += sofar
			s.CurveSquares[i] += sofar * sofar
		}
	}
}

// Add adds the trials of o, which is of the same system.
func (s *Sums) Add(o *Sums) {
	s.AddFigures(o)
	for i := range s.Curve {
		s.Curve[i] += o.Curve[i]
		s.CurveSquares[i] += o.CurveSquares[i]
	}
	s.Failures.merge(&o.Failures)
	s.PerLoss.merge(&o.PerLoss)
}

// AddFigures adds the trials of o but for their curve and their histograms,
// which take most of the memory: s may be the zero Sums.
func (s *Sums) AddFigures(o *Sums) {
	s.N += o.N
	s.Work += o.Work
	for q := range s.Sum {
		s.Sum[q] += o.Sum[q]
		s.Squares[q] += o.Squares[q]
	}
	s.Largest = math.Max(s.Largest, o.Largest)
}

// Reset empties s and keeps its memory.
func (s *Sums) Reset() {
	s.N, s.Work, s.Largest = 0, 0, 0
	s.Sum, s.Squares = Amounts{}, Amounts{}
	clear(s.Curve)
	clear(s.CurveSquares)
	s.Failures.reset()
	s.PerLoss.reset()
}
