package simtest

import (
	"math"
	"slices"
	"testing"
)

// Mean is a mean over draws, with its standard error.
type Mean struct{ n, sum, squares float64 }

// Add adds a draw.
func (m *Mean) Add(x float64) { m.n, m.sum, m.squares = m.n+1, m.sum+x, m.squares+x*x }

// Sum returns the sum of the draws.
func (m *Mean) Sum() float64 { return m.sum }

// value returns the mean and its standard error.
func (m *Mean) value() (mean, se float64) {
	mean = m.sum / m.n
	return mean, math.Sqrt(math.Max(0, m.squares/m.n-mean*mean) / m.n)
}

// Is fails where the mean is not what it should be within 4 standard errors (where
// there is no chance in it, within what a long sum loses), or is
// so rough that it would agree with anything.
func (m *Mean) Is(t *testing.T, what string, want float64) {
	t.Helper()
	got, se := m.value()
	if !(math.Abs(got-want) <= 4*se+1e-10*math.Abs(want)) {
		t.Errorf("%s: %.6g ± %.2g, should be %.6g", what, got, se, want)
	}
	if !(se <= 0.05*math.Abs(want)) {
		t.Errorf("%s: ± %.2g of %.3g shows nothing", what, se, want)
	}
}

// IsLoosely is Is for a mean that is rough because few draws have a part in it.
func (m *Mean) IsLoosely(t *testing.T, what string, want float64) {
	t.Helper()
	if got, se := m.value(); !(math.Abs(got-want) <= 4*se && se < 0.2*want) {
		t.Errorf("%s: %.6g ± %.2g, should be %.6g", what, got, se, want)
	}
}

// Equals fails where two means differ by more than 4 of their standard errors, or both are
// so rough that they would agree with anything.
func (m *Mean) Equals(t *testing.T, what string, o *Mean) {
	t.Helper()
	got, a := m.value()
	want, b := o.value()
	se := math.Hypot(a, b)
	if !(math.Abs(got-want) <= 4*se+1e-10*math.Abs(want)) {
		t.Errorf("%s: %.6g, should be %.6g, ± %.2g", what, got, want, se)
	}
	if !(se <= 0.05*math.Abs(want)) {
		t.Errorf("%s: ± %.2g of %.3g shows nothing", what, se, want)
	}
}

// Follows fails where a sample does not follow a law, by the one-sample test of
// Kolmogorov (the first term of its limit, an upper bound) at 10^-4. It sorts the sample.
func Follows(t *testing.T, what string, x []float64, cdf func(float64) float64) {
	t.Helper()
	slices.Sort(x)
	n, d := float64(len(x)), 0.0
	for i, v := range x {
		f := cdf(v)
		d = max(d, f-float64(i)/n, float64(i+1)/n-f)
	}
	if chance := 2 * math.Exp(-2*d*d*n); chance < 1e-4 {
		t.Errorf("%s: %.3f from its law, of chance %.2g; the middle is at %.5g", what, d, chance, x[len(x)/2])
	}
}
