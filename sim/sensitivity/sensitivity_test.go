package sensitivity

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/stream"
)

// ishigami is the function of T. Ishigami, T. Homma, "An importance
// quantification technique in uncertainty analysis for computer models", ISUMA
// 1990, with a = 7 and b = 0.1, of inputs uniform on (−π, π).
func ishigami(u []float64) float64 {
	x := func(i int) float64 { return math.Pi * (2*u[i] - 1) }
	s := math.Sin(x(1))
	return math.Sin(x(0)) + 7*s*s + 0.1*math.Pow(x(2), 4)*math.Sin(x(0))
}

// ishigamiExact is the closed form (A. Saltelli et al., "Global Sensitivity
// Analysis: The Primer", Wiley 2008; from memory):
// V1 = (1 + b·π⁴/5)²/2, V2 = a²/8, V13 = 8·b²·π⁸/225.
func ishigamiExact() (first, total []float64, variance float64) {
	const a, b = 7, 0.1
	v1 := math.Pow(1+b*math.Pow(math.Pi, 4)/5, 2) / 2
	v2 := a * a / 8.0
	v13 := 8 * b * b * math.Pow(math.Pi, 8) / 225
	v := v1 + v2 + v13
	return []float64{v1 / v, v2 / v, 0}, []float64{(v1 + v13) / v, v2 / v, v13 / v}, v
}

// The closed form gives the figures that are printed for it (the Primer; from
// memory), to the four digits given.
func TestIshigamiClosedForm(t *testing.T) {
	first, total, _ := ishigamiExact()
	for i, want := range []float64{0.3139, 0.4424, 0} {
		if math.Abs(first[i]-want) > 5e-5 {
			t.Errorf("first index %d: %.5f, printed %.4f", i+1, first[i], want)
		}
	}
	for i, want := range []float64{0.5576, 0.4424, 0.2437} {
		if math.Abs(total[i]-want) > 5e-5 {
			t.Errorf("total index %d: %.5f, printed %.4f", i+1, total[i], want)
		}
	}
}

// product is the g-function of I. M. Sobol' (Saltelli, Sobol', "About the use of
// rank transformation in sensitivity analysis of model output", Reliability
// Engineering and System Safety 50, 1995; from memory): Π (|4u − 2| + a)/(1 + a).
func product(a []float64) func([]float64) float64 {
	return func(u []float64) float64 {
		y := 1.0
		for i, x := range u {
			y *= (math.Abs(4*x-2) + a[i]) / (1 + a[i])
		}
		return y
	}
}

// productExact: each factor has mean 1 and variance v = 1/(3(1 + a)²), so
// V = Π(1 + v) − 1, Si = vi/V and STi = vi·Π(1 + vj)/V over the others.
func productExact(a []float64) (first, total []float64, variance float64) {
	all := 1.0
	v := make([]float64, len(a))
	for i, x := range a {
		v[i] = 1 / (3 * (1 + x) * (1 + x))
		all *= 1 + v[i]
	}
	for i := range a {
		first = append(first, v[i]/(all-1))
		total = append(total, v[i]*all/(1+v[i])/(all-1))
	}
	return first, total, all - 1
}

// plain is an Eval of a figure without an error.
func plain(f func([]float64) float64) Eval {
	return func(_ context.Context, rows [][]float64) ([]float64, error) {
		y := make([]float64, len(rows))
		for i, row := range rows {
			y[i] = f(row)
		}
		return y, nil
	}
}

// Close to the analytic indices from a large sample, and covered by the intervals
// of small ones in 92 to 98 % of 200 seeds for each function.
func TestAgainstAnalyticIndices(t *testing.T) {
	weights := []float64{0, 1, 4.5, 9, 99, 99}
	for i, c := range []struct {
		name  string
		k     int
		f     func([]float64) float64
		exact func() ([]float64, []float64, float64)
		mean  float64
	}{
		{"Ishigami", 3, ishigami, ishigamiExact, 3.5},
		{"g-function", 6, product(weights), func() ([]float64, []float64, float64) { return productExact(weights) }, 1},
	} {
		if !thorough.Part(i, 2) {
			continue
		}
		first, total, variance := c.exact()
		large, err := Indices(context.Background(), c.k, 1<<16, 1, plain(c.f))
		if err != nil {
			t.Fatal(err)
		}
		for i := range first {
			if math.Abs(large.First[i].Value-first[i]) > 0.01 || math.Abs(large.Total[i].Value-total[i]) > 0.01 {
				t.Errorf("%s, input %d: %+v, %+v, want %.4f and %.4f", c.name, i+1, large.First[i], large.Total[i], first[i], total[i])
			}
		}
		covered, all := map[string]int{}, 0
		for seed := range uint64(200) {
			r, err := Indices(context.Background(), c.k, 1024, 10+seed, plain(c.f))
			if err != nil {
				t.Fatal(err)
			}
			all++
			count := func(what string, e Estimate, truth float64) {
				if e.Low <= truth && truth <= e.High {
					covered[what]++
				}
			}
			left := 1.0
			for i := range first {
				count(fmt.Sprint("first ", i+1), r.First[i], first[i])
				count(fmt.Sprint("total ", i+1), r.Total[i], total[i])
				left -= first[i]
			}
			count("together", r.Together, left)
			count("mean", r.Mean, c.mean)
			count("variance", r.Variance, variance)
		}
		sum, n := 0, 0
		for what, good := range covered {
			sum, n = sum+good, n+all
			if good < 180 { // a true 95 % falls below in 1 of 500
				t.Errorf("%s, %s: covered by %d of %d", c.name, what, good, all)
			}
		}
		t.Logf("%s: %.1f %% of %d intervals cover: %v", c.name, 100*float64(sum)/float64(n), n, covered)
		if share := float64(sum) / float64(n); share < 0.92 || share > 0.98 {
			t.Errorf("%s: %.1f %% of the intervals cover", c.name, 100*share)
		}
	}
}

// A sum of independent inputs has the shares of its parts' variances, exactly
// known to a far-off mean; a constant has none.
func TestPlainFunctions(t *testing.T) {
	r, err := Indices(context.Background(), 2, 4096, 5, plain(func(u []float64) float64 { return 1e9 + 3*u[0] + 4*u[1] }))
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{9.0 / 25, 16.0 / 25} {
		if math.Abs(r.First[i].Value-want) > 0.01 || math.Abs(r.Total[i].Value-want) > 0.01 {
			t.Errorf("input %d: %+v, %+v, want %g", i+1, r.First[i], r.Total[i], want)
		}
	}
	if math.Abs(r.Mean.Value-1e9-3.5) > 0.01 || math.Abs(r.Variance.Value-25.0/12) > 0.02 || r.Together.Value > 0.01 {
		t.Errorf("mean %+v, variance %+v, together %+v", r.Mean, r.Variance, r.Together)
	}
	r, err = Indices(context.Background(), 2, 64, 5, plain(func([]float64) float64 { return 7 }))
	if err != nil || r.Mean != (Estimate{7, 7, 7}) || r.Variance != (Estimate{}) || r.First[0] != (Estimate{}) || r.Total[1] != (Estimate{}) {
		t.Errorf("a constant: %+v, %v", r, err)
	}
}

// The same digits the second time, and as many rows as said.
func TestRepeats(t *testing.T) {
	run := func() string {
		rows := 0
		r, err := Indices(context.Background(), 3, 500, 9, func(ctx context.Context, all [][]float64) ([]float64, error) {
			rows += len(all)
			return plain(ishigami)(ctx, all)
		})
		if err != nil || rows != r.Evaluations || rows != 512*5 || len(r.Values) != 2*512 {
			t.Fatalf("%v: %d rows, said %d, %d values", err, rows, r.Evaluations, len(r.Values))
		}
		return fmt.Sprint(r)
	}
	if one, two := run(), run(); one != two {
		t.Errorf("%s\n%s", one, two)
	}
}

// Each n-th of every axis holds one point, and a mixed row differs from B's in
// one place.
func TestDesign(t *testing.T) {
	const k, n = 3, 50
	rows := design(stream.New(1, 2), k, n)
	if len(rows) != n*(k+2) {
		t.Fatalf("%d rows", len(rows))
	}
	for d := range k {
		for _, sample := range [][][]float64{rows[:n], rows[n : 2*n]} {
			seen := map[int]bool{}
			for _, row := range sample {
				seen[int(row[d]*n)] = true
				if !(row[d] > 0 && row[d] < 1) {
					t.Errorf("%g is not inside", row[d])
				}
			}
			if len(seen) != n {
				t.Errorf("axis %d: %d of %d cells are filled", d, len(seen), n)
			}
		}
		for i := range n {
			for e := range k {
				want := rows[n+i][e]
				if e == d {
					want = rows[i][e]
				}
				if got := rows[(2+d)*n+i][e]; got != want {
					t.Errorf("row %d mixed in %d: %g at %d, want %g", i, d, got, e, want)
				}
			}
		}
	}
}

func TestErrors(t *testing.T) {
	broken := errors.New("no")
	for name, c := range map[string]struct {
		k    int
		eval Eval
		want error
	}{
		"no inputs":     {0, plain(ishigami), nil},
		"a broken one":  {3, func(context.Context, [][]float64) ([]float64, error) { return nil, broken }, broken},
		"not a number":  {3, plain(func([]float64) float64 { return math.NaN() }), nil},
		"infinite":      {3, plain(func([]float64) float64 { return math.Inf(-1) }), nil},
		"figures amiss": {3, func(context.Context, [][]float64) ([]float64, error) { return []float64{1}, nil }, nil},
	} {
		_, err := Indices(context.Background(), c.k, 64, 1, c.eval)
		if err == nil || c.want != nil && err != c.want {
			t.Errorf("%s: %v", name, err)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Indices(ctx, 3, 64, 1, plain(ishigami)); err != context.Canceled {
		t.Errorf("called off: %v", err)
	}
}

// An input without effect has shares of exactly 0, whatever the others do: so small
// shares are estimated with little noise.
func TestNoEffectNoNoise(t *testing.T) {
	r, err := Indices(context.Background(), 2, 256, 5, plain(func(u []float64) float64 { return math.Sin(7 * u[0]) }))
	if err != nil {
		t.Fatal(err)
	}
	if none := (Estimate{}); r.First[1] != none || r.Total[1] != none {
		t.Errorf("first %+v, total %+v", r.First[1], r.Total[1])
	}
}
