package branch

import (
	"math"
	"slices"
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

// What the tests beside this file share: a system, a simulator that is ready to
// follow lines of it, and the tests that means and samples are put to.

// systemOf is sets of a group of drives with that tolerance and life, restored by a
// law.
func systemOf(sets, drives, tolerance int, life law.Life, restore law.Time) *model.System {
	sys := &model.System{
		Horizon: 43800, Sets: sets, GroupsPerSet: 1, Drives: drives, Tolerance: tolerance,
		Life: life, Repair: model.Repair{Restore: restore},
	}
	for range tolerance + 1 {
		sys.Degraded = append(sys.Degraded, 1)
	}
	return sys
}

// following returns a simulator of a system as it is within a life, and the sums
// that its trial belongs to.
func following(sys *model.System, seed uint64) (*Simulator, *model.Sums) {
	b, sums := New(sys), model.NewSums(sys)
	b.rnd, b.tr = stream.New(seed, 1), sums.Begin()
	b.rate, b.batch = 1, 1
	b.steer()
	return b, sums
}

// lineAt returns a line with weight 1 at a time, all of its drives running.
func lineAt(b *Simulator, now float64) *line {
	l := b.newLine()
	l.begin(b.sys)
	l.now, l.w, l.decay, l.failures = now, 1, 1, 1
	return l
}

// fail makes an original drive of a group of a line fail, restored at a time.
func fail(b *Simulator, l *line, g int, until float64) {
	l.removeDrive(b, g, none)
	l.raise(g)
	l.down = append(l.down, downDrive{group: g, state: rebuilding, begun: l.now, length: until - l.now, at: until})
}

// mean is a mean over draws.
type mean struct{ n, sum, squares float64 }

func (m *mean) add(x float64) { m.n, m.sum, m.squares = m.n+1, m.sum+x, m.squares+x*x }

// is fails where the mean is not what it should be within 4 standard errors (where
// there is no chance in it, within what a long sum loses), or is
// so rough that it would agree with anything.
func (m *mean) is(t *testing.T, what string, want float64) {
	t.Helper()
	got := m.sum / m.n
	se := math.Sqrt(math.Max(0, m.squares/m.n-got*got) / m.n)
	if !(math.Abs(got-want) <= 4*se+1e-10*math.Abs(want)) {
		t.Errorf("%s: %.6g ± %.2g, should be %.6g", what, got, se, want)
	}
	if !(se <= 0.05*math.Abs(want)) {
		t.Errorf("%s: ± %.2g of %.3g shows nothing", what, se, want)
	}
}

// follows fails where a sample does not follow a law, by the one-sample test of
// Kolmogorov (the first term of its limit, an upper bound) at 10^-4.
func follows(t *testing.T, what string, x []float64, cdf func(float64) float64) {
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

func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got-want) <= relative*math.Abs(want)) {
		t.Errorf("%s: %.12g, should be %.12g", what, got, want)
	}
}

// equals fails where two means differ by more than 4 of their standard errors, or both are
// so rough that they would agree with anything.
func (m *mean) equals(t *testing.T, what string, o *mean) {
	t.Helper()
	error2 := func(m *mean) float64 { x := m.sum / m.n; return max(0, m.squares/m.n-x*x) / m.n }
	got, want, se := m.sum/m.n, o.sum/o.n, math.Sqrt(error2(m)+error2(o))
	if !(math.Abs(got-want) <= 4*se+1e-10*math.Abs(want)) {
		t.Errorf("%s: %.6g, should be %.6g, ± %.2g", what, got, want, se)
	}
	if !(se <= 0.05*math.Abs(want)) {
		t.Errorf("%s: ± %.2g of %.3g shows nothing", what, se, want)
	}
}
