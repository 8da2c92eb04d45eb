package sensitivity

import "math"

// sums is what a replicate, or several, add up to.
type sums struct {
	n        float64 // points of A, and of B
	one, two float64 // of the figure and of its square, over A and B
	inputs   []input
}

// input is the sums for one input, over pairs of points.
type input struct {
	shift, gain float64 // mixed point less B, which share all others: sum, and sum of products with A, which shares it
	apart       float64 // squares of the same
}

// add returns the sums of the figures of a replicate, in the order of its design, less a
// centre, so that no digits are lost where they are far from 0.
func add(y []float64, centre float64, k, n int) *sums {
	s := &sums{n: float64(n), inputs: make([]input, k)}
	for i := range n {
		a, b := y[i]-centre, y[n+i]-centre
		s.one += a + b
		s.two += a*a + b*b
		for d := range k {
			m := y[(2+d)*n+i] - centre
			in := &s.inputs[d]
			in.shift += m - b
			in.gain += a * (m - b)
			in.apart += (m - b) * (m - b)
		}
	}
	return s
}

// pool returns the sum of all replicates but the one that is left out (−1: none).
func pool(parts []*sums, out int) *sums {
	s := &sums{inputs: make([]input, len(parts[0].inputs))}
	for r, p := range parts {
		if r == out {
			continue
		}
		s.n += p.n
		s.one += p.one
		s.two += p.two
		for d := range s.inputs {
			in, q := &s.inputs[d], &p.inputs[d]
			in.shift += q.shift
			in.gain += q.gain
			in.apart += q.apart
		}
	}
	return s
}

// figures returns the mean, the variance, what the first indices leave, and then the
// first and the total index of each input.
func (s *sums) figures() []float64 {
	mean := s.one / (2 * s.n)
	variance := math.Max(0, s.two/(2*s.n)-mean*mean)
	out := []float64{mean, variance, 1}
	for _, in := range s.inputs {
		first, total := 0.0, 0.0
		if variance > 0 {
			first = (in.gain - mean*in.shift) / s.n / variance
			total = in.apart / (2 * s.n) / variance
		}
		out[2] -= first
		out = append(out, first, total)
	}
	return out
}
