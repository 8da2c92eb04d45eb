package law

import (
	"fmt"
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/stream"
)

// part is a law with its first three cumulants, which add over independent
// parts and so give the moments of a sum by another way than the multinomial.
type part struct {
	law        Tiltable
	k1, k2, k3 float64
}

func exponentialPart(mean float64) part {
	return part{Exponential(mean), mean, mean * mean, 2 * mean * mean * mean}
}

// The textbook mean, variance and skewness of the lognormal.
func lognormalPart(mu, sigma float64) part {
	e := math.Exp(sigma * sigma)
	mean := math.Exp(mu + sigma*sigma/2)
	variance := (e - 1) * mean * mean
	return part{Lognormal{mu, sigma}, mean, variance, (e + 2) * math.Sqrt(e-1) * math.Pow(variance, 1.5)}
}

// A Rayleigh length of that scale is a Weibull of shape 2.
func rayleighPart(scale float64) part {
	g1, g2, g3 := math.Sqrt(math.Pi)/2, 1.0, 3*math.Sqrt(math.Pi)/4 // Γ(1.5), Γ(2), Γ(2.5)
	return part{
		Weibull{Shape: 2, Scale: scale},
		scale * g1, scale * scale * (g2 - g1*g1),
		scale * scale * scale * (g3 - 3*g2*g1 + 2*g1*g1*g1),
	}
}

var sums = []struct {
	name  string
	fixed float64
	parts []part
}{
	{"one exponential", 0, []part{exponentialPart(48)}},
	{"fixed and exponential", 20, []part{exponentialPart(48)}},
	{"fixed and lognormal", 16, []part{lognormalPart(math.Log(24), 0.8)}},
	{"one lognormal, heavy", 0, []part{lognormalPart(math.Log(24), 1.08)}},
	{"two exponentials", 0, []part{exponentialPart(10), exponentialPart(40)}},
	{"fixed and two", 30, []part{rayleighPart(12), exponentialPart(8)}},
	{"fixed and three", 5, []part{exponentialPart(3), rayleighPart(12), lognormalPart(2, 0.6)}},
}

// moments are E[x], E[x²] and E[x³] of a fixed part and independent ones.
func moments(fixed float64, parts []part) (m [4]float64) {
	k1, k2, k3 := fixed, 0.0, 0.0
	for _, p := range parts {
		k1, k2, k3 = k1+p.k1, k2+p.k2, k3+p.k3
	}
	return [4]float64{1, k1, k2 + k1*k1, k3 + 3*k2*k1 + k1*k1*k1}
}

func sumOf(r int, fixed float64, parts []part) *Sum {
	var laws []Tiltable
	for _, p := range parts {
		laws = append(laws, p.law)
	}
	return NewSum(r, fixed, laws...)
}

func TestSumMeanTilted(t *testing.T) {
	for _, c := range sums {
		m := moments(c.fixed, c.parts)
		s := sumOf(3, c.fixed, c.parts)
		for r := range 3 {
			near(t, fmt.Sprintf("%s: MeanTilted(%d)", c.name, r), s.MeanTilted(r), m[r+1]/m[r], 1e-12)
		}
	}
}

// Whatever the power, weighted draws have the means of the law itself, and no
// weight is above 1/Keep, 2.5. With the same power the weighted x^r has hardly
// any variance left: that is what the tilt is for.
func TestSumDrawMixed(t *testing.T) {
	const n = 100_000
	for i, c := range sums {
		m := moments(c.fixed, c.parts)
		s := sumOf(17, c.fixed, c.parts)
		for k, r := range []int{0, 1, 2, 3, 8, 17} {
			if !thorough.Part(i+k, 2) {
				continue
			}
			t.Run(fmt.Sprintf("%s, %d", c.name, r), func(t *testing.T) {
				rnd := stream.New(31, uint64(100*i+r))
				var sum, square [4]float64
				for range n {
					x, w := s.DrawMixed(rnd, r)
					if !(w >= 0 && w <= 1/Keep) {
						t.Fatalf("weight %g of %g is not in 0 to %g", w, x, 1/Keep)
					}
					if x < c.fixed {
						t.Fatalf("drew %g, below the fixed part of %g", x, c.fixed)
					}
					g := w
					for p := range sum {
						sum[p] += g
						square[p] += g * g
						g *= x
					}
				}
				for p := range sum {
					mean := sum[p] / n
					se := math.Sqrt((square[p]/n - mean*mean) / n)
					// A power beyond the tilt is left to luck: the error of
					// such a mean is not told by its sample.
					if p > r+1 && r > 0 || r == 0 && p > 1 {
						continue
					}
					if math.Abs(mean-m[p]) > 4*se+1e-12*m[p] {
						t.Errorf("weighted mean of x^%d is %.6g ± %.2g, want %.6g", p, mean, se, m[p])
					}
					if p == r && p > 0 && se > 1.3/math.Sqrt(n)*m[p] {
						t.Errorf("weighted x^%d has a relative deviation of %.3g, want below 1.3", p, se*math.Sqrt(n)/m[p])
					}
				}
			})
		}
	}
}

// The tail of the sum of two exponentials is in closed form.
func TestSumDrawMixedTail(t *testing.T) {
	const n, a, b, fixed = 200_000, 10.0, 40.0, 12.0
	s := NewSum(4, fixed, Exponential(a), Exponential(b))
	for r := range 5 {
		rnd := stream.New(32, uint64(r))
		for _, x := range []float64{15, 40, 100, 250} {
			want := (b*math.Exp(-(x-fixed)/b) - a*math.Exp(-(x-fixed)/a)) / (b - a)
			sum, square := 0.0, 0.0
			for range n {
				if y, w := s.DrawMixed(rnd, r); y > x {
					sum += w
					square += w * w
				}
			}
			mean := sum / n
			if se := math.Sqrt((square/n - mean*mean) / n); math.Abs(mean-want) > 4*se {
				t.Errorf("power %d: weight beyond %g is %.6g ± %.2g, want %.6g", r, x, mean, se, want)
			}
		}
	}
}

// The law itself is drawn unweighted.
func TestSumDraw(t *testing.T) {
	const n = 100_000
	for i, c := range sums {
		m := moments(c.fixed, c.parts)
		s := sumOf(1, c.fixed, c.parts)
		rnd := stream.New(33, uint64(i))
		sum := 0.0
		for range n {
			sum += s.Draw(rnd)
		}
		if d := math.Abs(sum/n - m[1]); d > 4*math.Sqrt((m[2]-m[1]*m[1])/n) {
			t.Errorf("%s: mean of the draws %.6g, want %.6g", c.name, sum/n, m[1])
		}
		if !s.Random() {
			t.Errorf("%s: not random", c.name)
		}
	}
}

// A sum without chance is its fixed part, with nothing to weigh; 0 h too.
func TestSumFixed(t *testing.T) {
	rnd := stream.New(34, 0)
	for _, fixed := range []float64{0, 24} {
		s := NewSum(3, fixed)
		if s.Random() {
			t.Error("random")
		}
		for r := range 4 {
			if x, w := s.DrawMixed(rnd, r); x != fixed || w != 1 {
				t.Errorf("power %d: drew %g of weight %g, want %g of 1", r, x, w, fixed)
			}
		}
		if m := s.MeanTilted(2); m != fixed {
			t.Errorf("MeanTilted = %g, want %g", m, fixed)
		}
	}
}

func TestSumNoAllocations(t *testing.T) {
	s := NewSum(5, 3, Exponential(2), Lognormal{1, 1}, Weibull{Shape: 2, Scale: 5})
	rnd := stream.New(35, 0)
	sink := 0.0
	if n := testing.AllocsPerRun(1000, func() {
		x, w := s.DrawMixed(rnd, 4)
		sink += x*w + s.Draw(rnd) + s.MeanTilted(3)
	}); n != 0 {
		t.Errorf("%g allocations a draw, want 0", n)
	}
}
