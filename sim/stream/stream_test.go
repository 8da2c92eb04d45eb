package stream

import (
	"fmt"
	"math"
	"sort"
	"testing"

	"arrayodds/array/thorough"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// kolmogorov fails where the greatest distance between the distribution of n
// draws and cdf, times √n, is above 2.2: a right sampler has a chance of 1.3e-4
// of that, by Kolmogorov's limit law.
func kolmogorov(t *testing.T, n int, draw func() float64, cdf func(float64) float64) {
	t.Helper()
	x := make([]float64, n)
	for i := range x {
		x[i] = draw()
	}
	sort.Float64s(x)
	worst := 0.0
	for i, v := range x {
		f := cdf(v)
		worst = max(worst, f-float64(i)/float64(n), float64(i+1)/float64(n)-f)
	}
	if d := worst * math.Sqrt(float64(n)); !(d < 2.2) {
		t.Errorf("Kolmogorov distance × √n = %.3f, want below 2.2", d)
	}
}

// even fails where counts that should be alike have a chi-square that a right
// sampler has with a chance below 1e-4, on either side.
func even(t *testing.T, counts []float64) {
	t.Helper()
	want := make([]float64, len(counts))
	for _, c := range counts {
		want[0] += c / float64(len(counts))
	}
	for i := range want {
		want[i] = want[0]
	}
	x := stat.ChiSquare(counts, want)
	if p := (distuv.ChiSquared{K: float64(len(counts) - 1)}).Survival(x); p < 1e-4 || p > 1-1e-4 {
		t.Errorf("chi-square %.1f over %d cells, chance %.2g", x, len(counts), p)
	}
}

func TestFloat64(t *testing.T) {
	s := New(1, 0)
	kolmogorov(t, 200_000, s.Float64, func(x float64) float64 { return x })

	// 1 000 cells of the value, and the pairs of successive values in 32 × 32.
	const n = 1_000_000
	cells, pairs := make([]float64, 1000), make([]float64, 32*32)
	sum, square, before := 0.0, 0.0, s.Float64()
	for i := range n {
		u := s.Float64()
		if !(u > 0 && u < 1) {
			t.Fatalf("%g is not inside (0, 1)", u)
		}
		sum += u
		square += u * u
		cells[int(u*1000)]++
		if i%2 == 0 {
			pairs[int(before*32)*32+int(u*32)]++
		}
		before = u
	}
	even(t, cells)
	even(t, pairs)
	// Standard errors of the mean and of the mean square: √(1/12n), √(4/45n).
	if d := math.Abs(sum/n - 0.5); d > 4*math.Sqrt(1/(12.0*n)) {
		t.Errorf("mean %.6f, want 1/2", sum/n)
	}
	if d := math.Abs(square/n - 1.0/3); d > 4*math.Sqrt(4/(45.0*n)) {
		t.Errorf("mean square %.6f, want 1/3", square/n)
	}
}

// The extreme words, which no run meets by chance, stay inside too.
func TestFloat64Ends(t *testing.T) {
	if low, high := inside(0), inside(math.MaxUint64); !(low > 0) || !(high < 1) {
		t.Errorf("from %g to %g, want inside (0, 1)", low, high)
	}
}

func TestIntn(t *testing.T) {
	s := New(2, 0)
	for _, n := range []int{1, 2, 7, 100} {
		counts := make([]float64, n)
		for range 200_000 {
			counts[s.Intn(n)]++ // out of range would panic
		}
		if n > 1 {
			even(t, counts)
		}
	}
}

func TestExp(t *testing.T) {
	kolmogorov(t, 500_000, New(3, 0).Exp, distuv.Exponential{Rate: 1}.CDF)
}

func TestNorm(t *testing.T) {
	kolmogorov(t, 500_000, New(4, 0).Norm, distuv.UnitNormal.CDF)
}

// The tails of the ziggurat are made apart from its body, and Kolmogorov's
// distance sees nothing of them.
func TestNormTails(t *testing.T) {
	const n = 2_000_000
	s := New(5, 0)
	beyond := map[float64]int{-4: 0, -3.5: 0, 3.5: 0, 4: 0}
	for range n {
		x := s.Norm()
		for z := range beyond {
			if x/z >= 1 {
				beyond[z]++
			}
		}
	}
	for z, seen := range beyond {
		want := n * distuv.UnitNormal.CDF(-math.Abs(z))
		if d := math.Abs(float64(seen) - want); d > 4*math.Sqrt(want) {
			t.Errorf("%d of %d beyond %g, want %.0f", seen, n, z, want)
		}
	}
}

func TestGamma(t *testing.T) {
	for i, a := range []float64{0.05, 0.5, 0.9, 1, 1.5, 3, 17, 50.5, 1e6} {
		if !thorough.Part(i, 4) {
			continue
		}
		t.Run(fmt.Sprint(a), func(t *testing.T) {
			s := New(6, uint64(i))
			law := distuv.Gamma{Alpha: a, Beta: 1}
			kolmogorov(t, 200_000, func() float64 { return s.Gamma(a) }, law.CDF)

			// The variance of a Gamma(a) is a; that of its square about the
			// mean is 2a² + 6a.
			// As many draws as show a shape that is off by a hundredth.
			const n = 1_000_000
			sum, square := 0.0, 0.0
			for range n {
				x := s.Gamma(a)
				sum += x
				square += (x - a) * (x - a)
			}
			if d := math.Abs(sum/n - a); d > 4*math.Sqrt(a/n) {
				t.Errorf("mean %.6g, want %g", sum/n, a)
			}
			if d := math.Abs(square/n - a); d > 4*math.Sqrt((2*a*a+6*a)/n) {
				t.Errorf("variance %.6g, want %g", square/n, a)
			}
		})
	}
}

// Streams of near seeds and near numbers have nothing in common: no word twice,
// and no correlation between the same places of two of them.
func TestStreamsDiffer(t *testing.T) {
	const places = 1000
	names := [][2]uint64{{1, 0}, {1, 1}, {1, 2}, {2, 0}, {2, 1}, {0, 0}, {0, 1}, {1 << 63, 0}, {math.MaxUint64, math.MaxUint64}}
	seen := map[uint64]string{}
	values := make([][]float64, len(names))
	for i, name := range names {
		words, floats := New(name[0], name[1]), New(name[0], name[1])
		for range places {
			w := words.Uint64()
			if other, ok := seen[w]; ok {
				t.Fatalf("stream %v repeats a word of stream %s", name, other)
			}
			seen[w] = fmt.Sprint(name)
			values[i] = append(values[i], floats.Float64())
		}
	}
	for i := range values {
		for j := range i {
			// Of standard deviation 1/√places.
			if r := stat.Correlation(values[i], values[j], nil); math.Abs(r) > 4.5/math.Sqrt(places) {
				t.Errorf("streams %v and %v: correlation %.3f", names[i], names[j], r)
			}
		}
	}

	// Over many streams the first word is as even as over one.
	counts := make([]float64, 256)
	var s Stream
	for i := range 100_000 {
		s.Restart(7, uint64(i))
		counts[s.Uint64()>>56]++
	}
	even(t, counts)
}

func TestRestartRepeats(t *testing.T) {
	take := func(s *Stream) (all [7]float64) {
		for i := range 1000 {
			all[0] += float64(s.Uint64()>>11) * float64(i+1)
			all[1] += s.Float64() * float64(i+1)
			all[2] += s.Exp() * float64(i+1)
			all[3] += s.Norm() * float64(i+1)
			all[4] += s.Gamma(0.5) * float64(i+1)
			all[5] += s.Gamma(3) * float64(i+1)
			all[6] += float64(s.Intn(10) * (i + 1))
		}
		return all
	}
	want := take(New(11, 5))
	s := New(3, 4)
	s.Norm()
	s.Gamma(2.5)
	s.Restart(11, 5)
	if got := take(s); got != want {
		t.Errorf("restarted %v, new %v", got, want)
	}
	if other := take(s); other == want {
		t.Error("a stream that went on repeats itself")
	}
}

func TestNoAllocations(t *testing.T) {
	s := New(1, 1)
	sum := 0.0
	if n := testing.AllocsPerRun(200, func() {
		s.Restart(1, uint64(sum))
		sum += s.Float64() + s.Exp() + math.Abs(s.Norm()) + s.Gamma(0.5) + s.Gamma(4) + float64(s.Intn(3)) + float64(s.Uint64()>>60)
	}); n != 0 {
		t.Errorf("%g allocations a run, want 0", n)
	}
}
