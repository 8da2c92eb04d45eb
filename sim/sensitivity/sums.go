package sensitivity

// sums is what a replicate, or several, add up to.
type sums struct {
	n      float64 // points of A, and of B
	two    float64 // of the square of the figure, over A and B
	inputs []input
}

// input is the sums for one input, over pairs of points: a mixed one and B's, which share
// all others.
type input struct {
	gain  float64 // of the difference × A's, which shares the one input with the mixed one
	apart float64 // of the square of the difference
}

// add returns the sums of the figures of a replicate, in the order of its design, less
// their mean over A and B.
func add(y []float64, mean float64, k, n int) *sums {
	s := &sums{n: float64(n), inputs: make([]input, k)}
	for i := range n {
		a, b := y[i]-mean, y[n+i]-mean
		s.two += a*a + b*b
		for d := range k {
			m := y[(2+d)*n+i] - mean
			in := &s.inputs[d]
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
		s.two += p.two
		for d := range s.inputs {
			in, q := &s.inputs[d], &p.inputs[d]
			in.gain += q.gain
			in.apart += q.apart
		}
	}
	return s
}

// figures returns the variance, what the first indices leave, and then the
// first and the total index of each input.
func (s *sums) figures() []float64 {
	variance := s.two / (2 * s.n)
	out := []float64{variance, 1}
	for _, in := range s.inputs {
		first, total := 0.0, 0.0
		if variance > 0 {
			first = in.gain / s.n / variance
			total = in.apart / (2 * s.n) / variance
		}
		out[1] -= first
		out = append(out, first, total)
	}
	return out
}
