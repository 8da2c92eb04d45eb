package cholesky

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// Against gonum: the factor, what it solves and the inverse's diagonal; a column that is
// the sum of two others is left out.
func TestAgreesWithGonum(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	const rows, columns = 50, 6
	x := mat.NewDense(rows, columns, nil)
	for i := range rows {
		for j := range columns {
			x.Set(i, j, rnd.NormFloat64())
		}
	}
	var m mat.SymDense
	m.SymOuterK(1, x.T())
	var l Factor
	for i := range columns {
		var products []float64
		for j := range i + 1 {
			products = append(products, m.At(i, j))
		}
		if !l.Extend(products, 1e-9) {
			t.Fatalf("column %d is left out", i)
		}
	}
	both := func(j int) float64 { return m.At(0, j) + m.At(1, j) } // the products of the sum of two
	var again []float64
	for j := range columns {
		again = append(again, both(j))
	}
	if l.Extend(append(again, both(0)+both(1)), 1e-9) || len(l) != columns {
		t.Error("a column that says nothing of its own is added")
	}

	var c mat.Cholesky
	if !c.Factorize(&m) {
		t.Fatal("gonum finds no factor")
	}
	var lower mat.TriDense
	c.LTo(&lower)
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-12*(1+math.Abs(want)) {
			t.Errorf("%s: %g, gonum %g", what, got, want)
		}
	}
	y := mat.NewVecDense(columns, []float64{1, -2, 3, 0.5, 0, 7})
	var solution mat.VecDense
	if err := c.SolveVecTo(&solution, y); err != nil {
		t.Fatal(err)
	}
	var inverse mat.SymDense
	if err := c.InverseTo(&inverse); err != nil {
		t.Fatal(err)
	}
	got := l.SolveUpper(l.SolveLower(append([]float64(nil), y.RawVector().Data...)))
	diagonal := l.InverseDiagonal()
	for i := range columns {
		for j := range i + 1 {
			near("factor", l[i][j], lower.At(i, j))
		}
		near("solution", got[i], solution.AtVec(i))
		near("inverse", diagonal[i], inverse.At(i, i))
	}
}
