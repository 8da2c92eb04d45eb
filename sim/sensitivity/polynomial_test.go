package sensitivity

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/stream"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// own is coordinates that are the quantiles themselves.
func own(k int) (x []Coordinate) {
	for range k {
		x = append(x, func(u float64) float64 { return u })
	}
	return x
}

// known is a figure of which the indices are known.
type known struct {
	name           string
	inputs         []Coordinate
	eval           Eval
	first, total   []float64
	mean, variance float64
}

// check holds the polynomial's indices against the known ones: none off by more than a
// tolerance, and each covered in 8 or more of 10 seeds (a true 95 % falls below in 1 of
// 90, and intervals are wider than that), the mean and the variance, of which the
// intervals have nothing but chance, in 7 (1 of 1 000). With -calibrate it is 36 of 40 (1
// of 20) and 33 (1 of 800).
func (k known) check(t *testing.T, tolerance float64) {
	t.Helper()
	seeds, indices, moments := 10, 8, 7
	if *thorough.Calibrate {
		seeds, indices, moments = 40, 36, 33
	} else if !thorough.Asked() {
		seeds, indices, moments = 5, 3, 3
	}
	covered := map[string]int{}
	worst, unexplained := 0.0, 0.0
	count := func(what string, e Estimate, truth float64) {
		covered[what] += 0
		// Exact ones may be off in the last digits.
		if last := 1e-10 * math.Max(1, math.Abs(truth)); e.Low-last <= truth && truth <= e.High+last {
			covered[what]++
		}
	}
	for seed := range uint64(seeds) {
		r, err := Polynomial(context.Background(), k.inputs, 512, 10+seed, k.eval)
		if err != nil {
			t.Fatal(err)
		}
		unexplained = math.Max(unexplained, r.Unexplained)
		left := 1.0
		for i := range k.first {
			count(fmt.Sprint("first ", i+1), r.First[i], k.first[i])
			count(fmt.Sprint("total ", i+1), r.Total[i], k.total[i])
			worst = math.Max(worst, math.Max(math.Abs(r.First[i].Value-k.first[i]), math.Abs(r.Total[i].Value-k.total[i])))
			left -= k.first[i]
		}
		count("together", r.Together, left)
		count("mean", r.Mean, k.mean)
		count("variance", r.Variance, k.variance)
	}
	t.Logf("%s: off by %.2g at most, up to %.2g unexplained, covered: %v", k.name, worst, unexplained, covered)
	if !(worst <= tolerance) {
		t.Errorf("%s: off by %g", k.name, worst)
	}
	for what, good := range covered {
		least := indices
		if what == "mean" || what == "variance" {
			least = moments
		}
		if good < least {
			t.Errorf("%s, %s: covered by %d of %d", k.name, what, good, seeds)
		}
	}
}

// The closed forms of smooth figures and of one with kinks, from 512 points.
func TestPolynomialAgainstAnalyticIndices(t *testing.T) {
	if testing.Short() {
		t.Skip("coverage takes seconds, and fewer seeds tell nothing")
	}
	t.Parallel()
	first, total, variance := ishigamiExact()
	known{"Ishigami", own(3), plain(ishigami), first, total, 3.5, variance}.check(t, 0.002)
	for i, weights := range [][]float64{{1, 2, 4.5, 9}, {4.5, 9, 9, 20, 99, 99}} {
		if !thorough.Part(i, 2) {
			continue
		}
		first, total, variance = productExact(weights)
		known{fmt.Sprint("g-function ", weights), own(len(weights)), plain(product(weights)), first, total, 1, variance}.check(t, 0.02)
	}
}

// Twelve inputs, of which four do something and two of them together, under noise of
// each point's own: the indices are those without it. (∫u² − (∫u)² = 1/12, ∫u⁴ − (∫u²)² =
// 1/5 − 1/9.)
func TestPolynomialUnderNoise(t *testing.T) {
	if testing.Short() {
		t.Skip("coverage takes seconds, and fewer seeds tell nothing")
	}
	t.Parallel()
	figure := func(u []float64) float64 {
		return 3*u[0] + 4*u[1] + 5*u[2]*u[2] + 2*(u[0]-0.5)*(u[3]-0.5)
	}
	v := []float64{9.0 / 12, 16.0 / 12, 25 * (1.0/5 - 1.0/9), 4.0 / 144}
	all := v[0] + v[1] + v[2] + v[3]
	first, total := make([]float64, 12), make([]float64, 12)
	first[0], first[1], first[2] = v[0]/all, v[1]/all, v[2]/all
	total[0], total[1], total[2], total[3] = (v[0]+v[3])/all, v[1]/all, v[2]/all, v[3]/all
	for sd, tolerance := range map[float64]float64{0: 1e-9, 0.02: 0.003, 0.2: 0.03} {
		if sd == 0.02 && !thorough.Asked() {
			continue
		}
		calls := uint64(0)
		eval := func(_ context.Context, rows [][]float64) ([]float64, error) {
			calls++
			rnd := stream.New(99, calls)
			y := make([]float64, len(rows))
			for i, row := range rows {
				y[i] = figure(row) + sd*math.Sqrt(12)*(rnd.Float64()-0.5)
			}
			return y, nil
		}
		known{fmt.Sprint("noise ", sd), own(12), eval, first, total, 3.5 + 5.0/3, all + sd*sd}.check(t, tolerance)
	}
}

// On other scales than the quantiles: a sum of a triangular input on its own scale, of
// one that is −1, 0 or 1 (a quarter, half, a quarter), and of one of a single value has
// their variances for shares: 1/24 of the length squared and ½.
func TestPolynomialCoordinates(t *testing.T) {
	t.Parallel()
	triangle := distuv.NewTriangle(2, 5, 3.5, nil)
	three := func(u float64) float64 { return math.Floor(2*u+0.5) - 1 }
	inputs := []Coordinate{triangle.Quantile, three, func(float64) float64 { return 7 }}
	figure := func(u []float64) float64 { return 1e6 + 2*triangle.Quantile(u[0]) + 3*three(u[1]) }
	a, b := 4*9.0/24, 9*0.5
	r, err := Polynomial(context.Background(), inputs, 512, 1, plain(figure))
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{a / (a + b), b / (a + b), 0} {
		for _, e := range []Estimate{r.First[i], r.Total[i]} {
			if math.Abs(e.Value-want) > 1e-4 {
				t.Errorf("input %d: %+v, want %g", i+1, e, want)
			}
		}
	}
	if math.Abs(r.Variance.Value-a-b) > 1e-3 || r.Together.Value > 1e-9 || r.Unexplained > 1e-9 {
		t.Errorf("variance %+v, want %g; together %+v, unexplained %g", r.Variance, a+b, r.Together, r.Unexplained)
	}
}

// What no polynomial of few terms can follow is said to be unexplained.
func TestPolynomialOfWhatIsNone(t *testing.T) {
	r, err := Polynomial(context.Background(), own(8), 512, 1, plain(func(u []float64) float64 {
		x := 1.0
		for _, v := range u {
			x *= math.Copysign(1, v-0.5)
		}
		return x
	}))
	if err != nil {
		t.Fatal(err)
	}
	if !(r.Unexplained > 0.5) {
		t.Errorf("%g unexplained", r.Unexplained)
	}
	for i := range r.Total {
		if r.Total[i].High < 1 || r.First[i].Low > 0 {
			t.Errorf("first %+v, total %+v of input %d, exactly 0 and 1", r.First[i], r.Total[i], i+1)
		}
	}
}

// A constant has no shares, and the same seed gives the same digits.
func TestPolynomialPlain(t *testing.T) {
	r, err := Polynomial(context.Background(), own(2), 64, 5, plain(func([]float64) float64 { return 7 }))
	if err != nil || r.Mean != (Estimate{7, 7, 7}) || r.Variance != (Estimate{}) || r.First[0] != (Estimate{}) || r.Total[1] != (Estimate{}) || r.Together != (Estimate{}) || r.Unexplained != 0 {
		t.Errorf("%+v, %v", r, err)
	}
	run := func() string {
		r, err := Polynomial(context.Background(), own(3), 100, 5, plain(ishigami))
		if err != nil || r.Evaluations != 112 || len(r.Values) != 112 {
			t.Fatalf("%v, %d evaluations, %d values", err, r.Evaluations, len(r.Values))
		}
		return fmt.Sprint(r)
	}
	if one, two := run(), run(); one != two {
		t.Errorf("%s\n%s", one, two)
	}
}

func TestPolynomialErrors(t *testing.T) {
	broken := errors.New("no")
	for name, c := range map[string]struct {
		k    int
		eval Eval
		want error
	}{
		"no inputs":      {0, plain(ishigami), nil},
		"a broken one":   {3, func(context.Context, [][]float64) ([]float64, error) { return nil, broken }, broken},
		"not a number":   {3, plain(func([]float64) float64 { return math.NaN() }), nil},
		"too few points": {33, plain(ishigami), nil},
		"figures amiss":  {3, func(context.Context, [][]float64) ([]float64, error) { return []float64{1}, nil }, nil},
	} {
		_, err := Polynomial(context.Background(), own(c.k), 64, 1, c.eval)
		if err == nil || c.want != nil && err != c.want {
			t.Errorf("%s: %v", name, err)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Polynomial(ctx, own(3), 64, 1, plain(ishigami)); err != context.Canceled {
		t.Errorf("called off: %v", err)
	}
}

// The polynomials of a uniform law are those of Legendre, as gonum's quadrature of other
// points finds: orthonormal to the last digits.
func TestFamilyIsOrthonormal(t *testing.T) {
	f := newFamily(func(u float64) float64 { return 5 + 3*u }, highest)
	if len(f.norm) != highest {
		t.Fatalf("%d polynomials", len(f.norm))
	}
	for _, u := range []float64{0.01, 0.3, 0.5, 0.97} {
		at, x := f.at(u), 2*u-1
		for i, want := range []float64{math.Sqrt(3) * x, math.Sqrt(5) * (3*x*x - 1) / 2, math.Sqrt(7) * (5*x*x*x - 3*x) / 2} {
			if math.Abs(at[i]-want) > 1e-9 {
				t.Errorf("degree %d at %g: %g, Legendre's is %g", i+1, u, at[i], want)
			}
		}
	}
}

// Least squares agree with gonum's by QR: the coefficients, the residual, and the
// diagonal of the inverse.
func TestSquaresAgreeWithGonum(t *testing.T) {
	const n, p = 40, 7
	rnd := stream.New(3, 1)
	x, y := mat.NewDense(n, p, nil), mat.NewVecDense(n, nil)
	s := newSquares(p)
	for i := range n {
		for j := range p {
			x.Set(i, j, rnd.Float64()-0.3)
		}
		y.SetVec(i, rnd.Float64())
		s.row(mat.Row(nil, i, x), y.AtVec(i))
	}
	by, spread, left, ok := s.solve()
	if !ok {
		t.Fatal("not solved")
	}
	var want, miss mat.VecDense
	if err := want.SolveVec(x, y); err != nil {
		t.Fatal(err)
	}
	miss.MulVec(x, &want)
	miss.SubVec(&miss, y)
	var square, inverse mat.Dense
	square.Mul(x.T(), x)
	if err := inverse.Inverse(&square); err != nil {
		t.Fatal(err)
	}
	for j := range p {
		if math.Abs(by[j]-want.AtVec(j)) > 1e-12 || math.Abs(spread[j]-inverse.At(j, j)) > 1e-12 {
			t.Errorf("column %d: %g and %g, gonum %g and %g", j, by[j], spread[j], want.AtVec(j), inverse.At(j, j))
		}
	}
	if r := mat.Dot(&miss, &miss); math.Abs(left-r) > 1e-12 {
		t.Errorf("residual %g, gonum %g", left, r)
	}
	s.row(make([]float64, p), 1)
	twice := newSquares(2)
	for i := range 5 {
		twice.row([]float64{float64(i), 2 * float64(i)}, 1)
	}
	if _, _, _, ok := twice.solve(); ok {
		t.Error("columns that say the same are told apart")
	}
}

// What a call's figures are all off by is no matter, to either way.
func TestOffsets(t *testing.T) {
	t.Parallel()
	calls := 0.0
	off := func(ctx context.Context, rows [][]float64) ([]float64, error) {
		calls++
		y, err := plain(ishigami)(ctx, rows)
		for i := range y {
			y[i] += 100 * calls
		}
		return y, err
	}
	for name, run := range map[string]func(Eval) (Result, error){
		"polynomial": func(e Eval) (Result, error) { return Polynomial(context.Background(), own(3), 256, 1, e) },
		"sampling":   func(e Eval) (Result, error) { return Indices(context.Background(), 3, 256, 1, e) },
	} {
		want, err := run(plain(ishigami))
		if err != nil {
			t.Fatal(err)
		}
		got, err := run(off)
		if err != nil {
			t.Fatal(err)
		}
		for i := range want.First {
			for _, pair := range [][2]Estimate{{got.First[i], want.First[i]}, {got.Total[i], want.Total[i]}, {got.Variance, want.Variance}} {
				if a, b := pair[0], pair[1]; math.Abs(a.Value-b.Value)+math.Abs(a.Low-b.Low)+math.Abs(a.High-b.High) > 1e-9 {
					t.Errorf("%s, input %d: %+v, without offsets %+v", name, i+1, a, b)
				}
			}
		}
	}
}
