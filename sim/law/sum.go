package law

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/stream"
)

// Keep is the share of draws that a tilted mixture takes from the law itself,
// so that no weight grows beyond 1/Keep.
const Keep = 0.2

// Sum is a fixed part plus independent lengths of chance, ready to be drawn
// from the mixture Keep·f + (1−Keep)·f_r with f_r ∝ x^r f of the sum x. Make it
// with [NewSum].
type Sum struct {
	fixed float64
	laws  []Tiltable
	tilts []tilt // by r
}

// tilt is f_r of a sum, a mixture by the multinomial theorem: (c + x + y)^r is
// a sum of terms c^a x^b y^d, and each term tilts each law by its own power.
type tilt struct {
	logMoment float64   // log E[(sum)^r]
	perMoment float64   // 1 ÷ E[(sum)^r] where that is a plain number, else 0
	chance    []float64 // cumulative, of the terms
	powers    [][]int   // of the laws, in the terms
}

// NewSum prepares tilts up to power r of the sum of a fixed part, 0 or more,
// and laws that are independent.
func NewSum(r int, fixed float64, laws ...Tiltable) *Sum {
	s := &Sum{fixed: fixed, laws: laws}
	for p := 0; p <= r; p++ {
		s.tilts = append(s.tilts, newTilt(p, fixed, laws))
	}
	return s
}

func newTilt(r int, fixed float64, laws []Tiltable) tilt {
	var t tilt
	var logs []float64
	powers := make([]int, len(laws))
	var walk func(law, left int, log float64)
	walk = func(law, left int, log float64) {
		if law == len(laws) {
			if left > 0 && fixed == 0 {
				return
			}
			if left > 0 {
				log += float64(left)*math.Log(fixed) - logFactorial(left)
			}
			logs = append(logs, log+logFactorial(r))
			t.powers = append(t.powers, append([]int(nil), powers...))
			return
		}
		for p := 0; p <= left; p++ {
			powers[law] = p
			walk(law+1, left-p, log+laws[law].LogMoment(p)-logFactorial(p))
		}
	}
	walk(0, r, 0)
	most := math.Inf(-1)
	for _, l := range logs {
		most = math.Max(most, l)
	}
	sum := 0.0
	for _, l := range logs {
		sum += elementary.Exp(l - most)
		t.chance = append(t.chance, sum)
	}
	for i := range t.chance {
		t.chance[i] /= sum
	}
	t.logMoment = most + math.Log(sum)
	if math.Abs(t.logMoment) < 300 {
		t.perMoment = elementary.Exp(-t.logMoment)
	}
	return t
}

func logFactorial(n int) float64 {
	g, _ := math.Lgamma(float64(n + 1))
	return g
}

// Random reports whether the sum has a part that is a matter of chance.
func (s *Sum) Random() bool { return len(s.laws) > 0 }

// Draw draws the sum from its own law.
func (s *Sum) Draw(r *stream.Stream) float64 {
	x := s.fixed
	for _, l := range s.laws {
		x += l.Draw(r)
	}
	return x
}

// LogMoment returns log E[x^r] of the sum x, r up to the greatest prepared.
func (s *Sum) LogMoment(r int) float64 { return s.tilts[r].logMoment }

// MeanTilted returns the mean of the sum under f_r, r up to the greatest prepared
// less one.
func (s *Sum) MeanTilted(r int) float64 {
	if !s.Random() {
		return s.fixed
	}
	return elementary.Exp(s.tilts[r+1].logMoment - s.tilts[r].logMoment)
}

// DrawMixed draws the sum from Keep·f + (1−Keep)·f_r. The weight restores the
// law: E[weight·g(x)] is the mean of g under f.
func (s *Sum) DrawMixed(rnd *stream.Stream, r int) (x, weight float64) {
	if r == 0 || !s.Random() {
		return s.Draw(rnd), 1
	}
	t := &s.tilts[r]
	if rnd.Float64() < Keep {
		x = s.Draw(rnd)
	} else {
		term := 0
		if len(t.chance) > 1 {
			for u := rnd.Float64(); t.chance[term] < u; {
				term++
			}
		}
		x = s.fixed
		for i, l := range s.laws {
			x += l.DrawTilted(rnd, t.powers[term][i])
		}
	}
	return x, 1 / (Keep + (1-Keep)*t.ratio(x, r))
}

// ratio returns f_r ÷ f at x, that is x^r ÷ E[x^r].
func (t *tilt) ratio(x float64, r int) float64 {
	if t.perMoment == 0 || r > 8 {
		return elementary.Exp(float64(r)*math.Log(x) - t.logMoment)
	}
	ratio := t.perMoment
	for range r {
		ratio *= x
	}
	return ratio
}
