package elementary

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"arrayodds/array/thorough"
)

const bits = 256

func number(x float64) *big.Float { return new(big.Float).SetPrec(bits).SetFloat64(x) }

// bigLog is the logarithm by the series of the inverse hyperbolic tangent of
// (m − 1)/(m + 1), and that of 2 by the same.
func bigLog(x *big.Float) *big.Float {
	m := new(big.Float).SetPrec(bits)
	e := x.MantExp(m)
	tanh := func(m *big.Float) *big.Float {
		s := new(big.Float).SetPrec(bits).Quo(new(big.Float).SetPrec(bits).Sub(m, number(1)), new(big.Float).SetPrec(bits).Add(m, number(1)))
		square := new(big.Float).SetPrec(bits).Mul(s, s)
		sum := number(0)
		for k := 1.0; k < 350; k += 2 {
			sum.Add(sum, new(big.Float).SetPrec(bits).Quo(s, number(k)))
			s.Mul(s, square)
		}
		return sum.Mul(sum, number(2))
	}
	log := tanh(m)
	two := tanh(number(2))
	return log.Add(log, two.Mul(two, number(float64(e))))
}

// bigExp is the exponential by its Taylor series at x/2^20, squared 20 times.
func bigExp(x *big.Float) *big.Float {
	small := new(big.Float).SetPrec(bits).SetMantExp(x, -20)
	sum, term := number(1), number(1)
	for k := 1.0; k < 30; k++ {
		term.Mul(term, small).Quo(term, number(k))
		sum.Add(sum, term)
	}
	for range 20 {
		sum.Mul(sum, sum)
	}
	return sum
}

// off returns how many last places a number is from the right one.
func off(got float64, want *big.Float) float64 {
	right, _ := want.Float64()
	place := math.Nextafter(math.Abs(right), math.Inf(1)) - math.Abs(right)
	d, _ := new(big.Float).SetPrec(bits).Sub(number(got), want).Float64()
	return math.Abs(d) / place
}

// Against 256-bit arithmetic, over all that a float64 holds.
func TestExp(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	worst := 0.0
	for i := range thorough.Count(20000, 5000) {
		x := 1416*rnd.Float64() - 707
		switch i % 4 {
		case 1:
			x = 2*rnd.Float64() - 1
		case 2:
			x = math.Ldexp(rnd.Float64(), -rnd.IntN(60))
		}
		d := off(Exp(x), bigExp(number(x)))
		worst = max(worst, d)
		if d > 0.53 {
			t.Errorf("Exp(%g) = %g, off by %.3f of its last place", x, Exp(x), d)
		}
	}
	t.Logf("off by %.4f of the last place at most", worst)
	for _, x := range []float64{-708.5, -720, -744.9, 709.7} { // a place of a tiny number is large
		if d := off(Exp(x), bigExp(number(x))); d > 1 {
			t.Errorf("Exp(%g) = %g, off by %.3f of its last place", x, Exp(x), d)
		}
	}
}

func TestPow(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(2, 2))
	worst := 0.0
	for i := range thorough.Count(4000, 1000) {
		x := math.Exp(40*rnd.Float64() - 20)
		y := 34*rnd.Float64() - 17
		switch i % 5 {
		case 1:
			x = 1 + math.Ldexp(2*rnd.Float64()-1, -1-rnd.IntN(50))
			y = math.Exp(30 * rnd.Float64())
		case 2:
			y = 1 / (0.3 + 4*rnd.Float64())
		case 3:
			y = float64(rnd.IntN(21) - 10)
		case 4:
			x = math.Exp(1400*rnd.Float64() - 700)
			y = rnd.Float64()
		}
		want := bigExp(new(big.Float).SetPrec(bits).Mul(number(y), bigLog(number(x))))
		if right, _ := want.Float64(); math.IsInf(right, 0) || right < 1e-307 {
			continue
		}
		d := off(Pow(x, y), want)
		worst = max(worst, d)
		if d > 0.6 {
			t.Errorf("Pow(%g, %g) = %g, off by %.3f of its last place", x, y, Pow(x, y), d)
		}
	}
	t.Logf("off by %.4f of the last place at most", worst)
}

// What is no ordinary number comes out as from package math.
func TestSpecialCases(t *testing.T) {
	t.Parallel()
	same := func(a, b float64) bool {
		return math.Float64bits(a) == math.Float64bits(b) || a != a && b != b
	}
	special := []float64{math.Inf(1), math.Inf(-1), math.NaN(), 0, math.Copysign(0, -1), 1, -1, 0.5, -0.5, 2, -2, 3, -3, 1e300, -1e300, 1e-300, 5e-324, 1e5, math.MaxFloat64}
	for _, x := range special {
		if got, want := Exp(x), math.Exp(x); !same(got, want) && math.Abs(got-want) > 1e-15*want {
			t.Errorf("Exp(%g) = %g, math has %g", x, got, want)
		}
		for _, y := range special {
			if got, want := Pow(x, y), math.Pow(x, y); !same(got, want) && !(math.Abs(got-want) <= 1e-14*math.Abs(want)) {
				t.Errorf("Pow(%g, %g) = %g, math has %g", x, y, got, want)
			}
		}
	}
}

// The same digits wherever this test runs: the sum of all bits of many results, as amd64
// has it. It holds with GODEBUG=cpu.fma=off and, by
//
//	GOOS=js GOARCH=wasm go test -exec="$(go env GOROOT)/lib/wasm/go_js_wasm_exec" ./array/elementary
//
// under Node.js.
func TestDigits(t *testing.T) {
	t.Parallel()
	state, sum := uint64(1), uint64(0)
	next := func() float64 { // Knuth's MMIX generator
		state = state*6364136223846793005 + 1442695040888963407
		return float64(state>>11) / (1 << 53)
	}
	for range 200000 {
		sum = sum*31 + math.Float64bits(Exp(700*next()-350))
		sum = sum*31 + math.Float64bits(Pow(100*next(), 10*next()-5))
	}
	a := 1 + math.Ldexp(next(), -20)
	minus := -float64(a * a)
	if fused := a*a + minus; fused != 0 {
		t.Logf("products are fused with sums here: %#x", sum)
		return
	}
	if want := uint64(0x814e440336a1ff0a); sum != want {
		t.Errorf("%#x, should be %#x", sum, want)
	}
}

var sink float64

func BenchmarkExp(b *testing.B) {
	for i := range b.N {
		sink += Exp(float64(i&1023) * -0.01)
	}
}

func BenchmarkMathExp(b *testing.B) {
	for i := range b.N {
		sink += math.Exp(float64(i&1023) * -0.01)
	}
}

func BenchmarkPow(b *testing.B) {
	for i := range b.N {
		sink += Pow(float64(i&1023+1), 0.893)
	}
}

func BenchmarkMathPow(b *testing.B) {
	for i := range b.N {
		sink += math.Pow(float64(i&1023+1), 0.893)
	}
}

// The table of roots against math/big's square roots, exact to the last bit.
func TestRoots(t *testing.T) {
	root := number(2)
	for range 5 {
		root.Sqrt(root)
	}
	x := number(1)
	for j, r := range roots {
		high, _ := x.Float64()
		low, _ := new(big.Float).SetPrec(bits).Sub(x, number(high)).Float64()
		if r.high != high || r.low != low {
			t.Errorf("2^(%d/32) is %x + %x; right would be %x + %x", j, r.high, r.low, high, low)
		}
		x.Mul(x, root)
	}
}
