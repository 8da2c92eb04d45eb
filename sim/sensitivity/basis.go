package sensitivity

import "math"

// A Coordinate is what an input is at quantile u of its law, between 0 and 1, on the
// scale on which the figure is smoothest: the logarithm of a rate, say. Of an input that
// has few values it has few.
type Coordinate func(u float64) float64

// family is polynomials of an input's coordinate that are orthonormal under its law:
// that of degree j+1 is first, that of degree 0 is 1 and left out.
type family struct {
	of          Coordinate
	mean, scale float64   // of the coordinate
	shift, norm []float64 // of the recurrence, one a degree
}

// lawPoints is the quantiles at which a law is taken to find its polynomials: two in each
// of equal parts, those of Gauss and Legendre.
const lawPoints = 1024

// lawPoint returns one of those quantiles.
func lawPoint(i int) float64 {
	side := float64(2*(i%2) - 1)
	return (2*float64(i/2) + 1 + side/math.Sqrt(3)) / lawPoints
}

// newFamily returns the polynomials up to a degree, or as many as the law has: one less
// than it has values.
//
// With ⟨·⟩ the mean under the law, the polynomials p of the coordinate z follow from
// √β·p[j+1] = (z − α)·p[j] − √β'·p[j−1], α = ⟨z·p[j]²⟩, β such that ⟨p[j+1]²⟩ = 1
// (the procedure of Stieltjes: W. Gautschi, "Orthogonal Polynomials: Computation and
// Approximation", Oxford 2004; from memory).
func newFamily(x Coordinate, degree int) *family {
	f := &family{of: x}
	z := make([]float64, lawPoints)
	for i := range z {
		z[i] = x(lawPoint(i))
		f.mean += z[i] / lawPoints
	}
	for i := range z {
		z[i] -= f.mean
		f.scale += z[i] * z[i] / lawPoints
	}
	if f.scale = math.Sqrt(f.scale); !(f.scale > 1e-12*math.Abs(f.mean)) {
		return f
	}
	before, now := make([]float64, lawPoints), make([]float64, lawPoints)
	for i := range z {
		z[i] /= f.scale
		now[i] = 1
	}
	last := 0.0
	for range degree {
		shift, square := 0.0, 0.0
		for i, p := range now {
			shift += z[i] * p * p / lawPoints
		}
		for i, p := range now {
			before[i] = (z[i]-shift)*p - last*before[i]
			square += before[i] * before[i] / lawPoints
		}
		norm := math.Sqrt(square)
		if !(norm > 1e-6) {
			break // the law has no more values
		}
		for i := range before {
			before[i] /= norm
		}
		before, now, last = now, before, norm
		f.shift, f.norm = append(f.shift, shift), append(f.norm, norm)
	}
	return f
}

// at returns the polynomials at a quantile.
func (f *family) at(u float64) []float64 {
	out := make([]float64, len(f.norm))
	z := (f.of(u) - f.mean) / f.scale
	before, now, last := 0.0, 1.0, 0.0
	for j := range out {
		before, now = now, ((z-f.shift[j])*now-last*before)/f.norm[j]
		last = f.norm[j]
		out[j] = now
	}
	return out
}

// term is a polynomial of one input, or the product of two of two inputs.
type term struct{ a, b factor }

// factor is a polynomial of an input; none where the degree is 0.
type factor struct{ input, degree int }

// has reports whether a term depends on an input.
func (t term) has(input int) bool {
	return t.a.degree > 0 && t.a.input == input || t.b.degree > 0 && t.b.input == input
}

// alone reports whether it depends on no other than one input.
func (t term) alone() bool { return t.b.degree == 0 }

// shape is how far a polynomial goes: the degree in one input alone, and the degree of
// products of two.
type shape struct{ alone, pairs int }

// shapes are those that are tried.
var shapes = []shape{{1, 0}, {2, 2}, {4, 2}, {6, 3}, {6, 4}, {8, 6}, {10, 10}}

// highest is the highest degree in one input among the shapes.
const highest = 10

// terms returns the terms of a shape, without a constant; nil where there are
// more than so many.
func (s shape) terms(by []*family, most int) []term {
	out := []term{}
	for i, f := range by {
		for d := 1; d <= min(s.alone, len(f.norm)); d++ {
			out = append(out, term{a: factor{i, d}})
		}
	}
	for i, f := range by {
		for j, g := range by[:i] {
			for d := 1; d <= len(f.norm); d++ {
				for e := 1; e <= min(s.pairs-d, len(g.norm)); e++ {
					out = append(out, term{factor{i, d}, factor{j, e}})
				}
			}
			if len(out) > most {
				return nil
			}
		}
	}
	if len(out) > most {
		return nil
	}
	return out
}

// polynomials returns those of each input at a row.
func polynomials(by []*family, row []float64) (of [][]float64) {
	for i, f := range by {
		of = append(of, f.at(row[i]))
	}
	return of
}

// value returns a term, given the polynomials of each input.
func (t term) value(of [][]float64) float64 {
	x := 1.0
	if t.a.degree > 0 {
		x = of[t.a.input][t.a.degree-1]
	}
	if t.b.degree > 0 {
		x *= of[t.b.input][t.b.degree-1]
	}
	return x
}
