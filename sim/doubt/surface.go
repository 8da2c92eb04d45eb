package doubt

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/cholesky"
)

// Inputs says where the inputs of a design are.
type Inputs struct {
	// Places has, for each setting of each replicate, where each input is between the ends
	// of its range: 0 at the low end, 1 at the high one. A record's rate may be beyond.
	Places [Replicates][][]float64
	// Laws has, for each input, its places at equally likely quantiles of its law.
	Laws [][]float64
}

// surface is a chance as a function of the places of inputs, its logarithm a sum of one
// polynomial of each input, of the first or the second degree.
type surface struct {
	degree int
	mean   float64 // of the logarithm
	centre []float64
	slope  []float64 // of x for each input, then of x² for each
}

// leastForSquares is how many settings there should be for each term of a surface with
// squares.
const leastForSquares = 2

// fit fits a surface to the logarithms of chances at rows of places, by least squares with
// a slight preference for small slopes, without which more inputs than settings would have
// no answer.
func fit(rows [][]float64, y []float64) surface {
	inputs, n := len(rows[0]), float64(len(rows))
	s := surface{degree: 1}
	if leastForSquares*(1+2*inputs) <= len(rows) {
		s.degree = 2
	}
	terms := make([][]float64, len(rows))
	all := make([]float64, len(rows)*s.degree*inputs)
	s.centre, s.slope = make([]float64, s.degree*inputs), make([]float64, s.degree*inputs)
	for k, row := range rows {
		terms[k], all = all[:s.degree*inputs], all[s.degree*inputs:]
		s.terms(terms[k], row)
		for i, x := range terms[k] {
			s.centre[i] += x / n
		}
		s.mean += y[k] / n
	}
	const preference = 1e-6
	var factor cholesky.Factor
	for i := range s.slope {
		products := make([]float64, i+1)
		for k, row := range terms {
			x := row[i] - s.centre[i]
			for j := range products {
				products[j] += x * (row[j] - s.centre[j])
			}
			s.slope[i] += x * (y[k] - s.mean)
		}
		products[i] += preference * n
		factor.Extend(products, 0)
	}
	s.slope = factor.SolveUpper(factor.SolveLower(s.slope))
	return s
}

// terms fills in the terms at the places of a setting.
func (s surface) terms(into, row []float64) {
	squares := into[copy(into, row):]
	for i := range squares {
		squares[i] = row[i] * row[i]
	}
}

// at returns the chance at a setting.
func (s surface) at(row []float64) float64 {
	y := s.mean
	for i, x := range row {
		y += s.of(i, x)
	}
	return elementary.Exp(y)
}

// of returns what an input at a place adds to the logarithm.
func (s surface) of(input int, x float64) float64 {
	y := s.slope[input] * (x - s.centre[input])
	if inputs := len(s.slope) / s.degree; s.degree > 1 {
		y += s.slope[inputs+input] * (x*x - s.centre[inputs+input])
	}
	return y
}

// expected returns the mean of the chance over the laws of the inputs, which are
// independent, so that it is a product.
func (s surface) expected(laws [][]float64) float64 {
	mean := elementary.Exp(s.mean)
	for i, places := range laws {
		sum := 0.0
		for _, x := range places {
			sum += elementary.Exp(s.of(i, x))
		}
		mean *= sum / float64(len(places))
	}
	return mean
}

// Effects returns how many times the chance grows when an input goes from one end of its
// range to the other, for each input: below 1 where it falls. It returns nil where a
// chance is 0 or not known.
func (s *Sample) Effects(inputs *Inputs) []float64 {
	var rows [][]float64
	var y []float64
	for r := range s.Chance {
		for k, p := range s.Chance[r] {
			if !(p > 0) {
				return nil
			}
			rows, y = append(rows, inputs.Places[r][k]), append(y, math.Log(p))
		}
	}
	if len(rows) == 0 || len(rows[0]) == 0 {
		return nil
	}
	fitted := fit(rows, y)
	out := make([]float64, len(rows[0]))
	for i := range out {
		out[i] = elementary.Exp(fitted.of(i, 1) - fitted.of(i, 0))
	}
	return out
}
