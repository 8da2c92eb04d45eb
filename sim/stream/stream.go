// Package stream makes the random numbers of the simulation.
//
// A [Stream] is one sequence, known by a seed and a number: block i of a run
// always draws from New(seed, i), so the digits of a result depend neither on
// the number of workers nor on who takes which block. This is the only package
// that knows the generator behind it, the PCG XSL RR 128/64 of M. E. O'Neill,
// "PCG: A Family of Simple Fast Space-Efficient Statistically Good Algorithms
// for Random Number Generation" (2014).
package stream

import (
	"encoding/binary"
	"math"

	"arrayodds/array/elementary"

	//lint:ignore SA1019 the digits of every seed come from this generator, which math/rand/v2 lacks
	"golang.org/x/exp/rand"
)

// Stream is a sequence of random numbers. It is not safe for use by several
// goroutines at a time.
type Stream struct {
	src  rand.PCGSource
	rand *rand.Rand // the library's ziggurats, over src
}

// New returns the stream of that number of a seed.
func New(seed, number uint64) *Stream {
	s := new(Stream)
	s.rand = rand.New(&s.src)
	s.Restart(seed, number)
	return s
}

// Restart makes s the stream number of a seed, as New does, without memory.
func (s *Stream) Restart(seed, number uint64) {
	// The generator's own Seed puts the same word into both halves of its
	// state, and near seeds would start near. Mix both words well instead.
	high := mix(seed + 0x9e3779b97f4a7c15)
	low := mix(number ^ high)
	high = mix(high + low)
	var state [16]byte
	binary.BigEndian.PutUint64(state[:8], high)
	binary.BigEndian.PutUint64(state[8:], low)
	if err := s.src.UnmarshalBinary(state[:]); err != nil {
		panic(err) // 16 bytes are what it wants
	}
	s.src.Uint64() // the first output would show the mixed words themselves
}

// mix returns x after the finaliser of SplitMix64 (Steele, Lea, Flood, "Fast Splittable
// Pseudorandom Number Generators", OOPSLA 2014): a bijection in which every input bit
// reaches every output bit.
func mix(x uint64) uint64 {
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// Uint64 returns a number that is uniform over all 64-bit words.
func (s *Stream) Uint64() uint64 { return s.src.Uint64() }

// Float64 returns a number that is uniform in the open interval (0, 1), so that a
// logarithm of it or of its complement is finite.
func (s *Stream) Float64() float64 { return inside(s.src.Uint64()) }

// inside returns the middle of one of 2^52 equal cells of (0, 1).
func inside(word uint64) float64 {
	return (float64(word>>12) + 0.5) * (1.0 / (1 << 52))
}

// Exp returns an exponential number with mean 1.
func (s *Stream) Exp() float64 { return s.rand.ExpFloat64() }

// Norm returns a normal number with mean 0 and variance 1.
func (s *Stream) Norm() float64 { return s.rand.NormFloat64() }

// Intn returns an integer that is uniform in 0 to n−1; n must be at least 1 and small
// against 2^53.
func (s *Stream) Intn(n int) int {
	i := int(s.Float64() * float64(n))
	if i == n {
		i--
	}
	return i
}

// Gamma returns a number from the Gamma law of shape a, above 0, and scale 1: its mean
// and its variance are a.
//
// The method is that of Marsaglia and Tsang, "A simple method for generating
// gamma variables", ACM Transactions on Mathematical Software 26(3), 2000.
// (gonum's sampler allocates at every draw.)
func (s *Stream) Gamma(a float64) float64 {
	if a < 1 {
		// A Gamma(a + 1) times U^(1/a) is a Gamma(a).
		return s.Gamma(a+1) * elementary.Pow(s.Float64(), 1/a)
	}
	d := a - 1.0/3
	c := 1 / math.Sqrt(9*d)
	for {
		x := s.Norm()
		v := 1 + c*x
		if v <= 0 {
			continue
		}
		v *= v * v
		if math.Log(s.Float64()) < 0.5*x*x+d*(1-v+math.Log(v)) {
			return d * v
		}
	}
}
