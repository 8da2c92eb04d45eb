package model

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/estimate"
)

// Histogram is a weighted distribution over 0, 1, 2, … Squares holds the sums
// of squared weights, from which the error of a quantile follows.
type Histogram struct {
	Weights, Squares []float64
}

func (h *Histogram) grow(n int) {
	for len(h.Weights) < n {
		h.Weights = append(h.Weights, 0)
		h.Squares = append(h.Squares, 0)
	}
}

func (h *Histogram) add(i int, w float64) {
	if i >= len(h.Weights) {
		h.grow(i + 1)
	}
	h.Weights[i] += w
	h.Squares[i] += w * w
}

func (h *Histogram) merge(o *Histogram) {
	h.grow(len(o.Weights))
	for i, w := range o.Weights {
		h.Weights[i] += w
		h.Squares[i] += o.Squares[i]
	}
}

func (h *Histogram) reset() {
	clear(h.Weights)
	clear(h.Squares)
}

// Quantile returns the smallest bin that a share q of the weight does not exceed,
// with the bins at which the share's 95 % interval ends. ok is false where the
// histogram is empty.
func (h *Histogram) Quantile(q float64) (value, low, high int, ok bool) {
	total, squares := 0.0, 0.0
	for i, w := range h.Weights {
		total += w
		squares += h.Squares[i]
	}
	if !(total > 0) {
		return 0, 0, 0, false
	}
	// The share below bin i is a ratio of weighted sums. Its variance is
	// Σ w²·(1{≤i} − F)² ÷ total².
	value, low, high = -1, -1, len(h.Weights)-1
	below, belowSquares := 0.0, 0.0
	for i, w := range h.Weights {
		below += w
		belowSquares += h.Squares[i]
		f := below / total
		variance := (belowSquares*(1-f)*(1-f) + (squares-belowSquares)*f*f) / (total * total)
		reach := estimate.Z95 * math.Sqrt(math.Max(0, variance))
		if value < 0 && f >= q-1e-12 {
			value = i
		}
		if low < 0 && f+reach >= q-1e-12 {
			low = i
		}
		if f-reach >= q-1e-12 {
			high = i
			break
		}
	}
	return value, low, max(value, high), true
}

// Losses are binned by the logarithm of the camera-hours they destroy, 100
// bins a decade from lossLeast up: a quantile is right to 1.2 %. Bin 0 holds
// what is less.
const (
	lossLeast   = 1e-3
	lossDecades = 14
	lossPer     = 100
)

// lossBin returns the bin of a loss of so many camera-hours.
func lossBin(hours float64) int {
	if hours <= lossLeast {
		return 0
	}
	return min(1+int(lossPer*math.Log10(hours/lossLeast)), lossDecades*lossPer)
}

// LossAmount returns the camera-hours in the middle of a bin of losses.
func LossAmount(bin int) float64 {
	if bin <= 0 {
		return 0
	}
	return lossLeast * elementary.Pow(10, (float64(bin)-0.5)/lossPer)
}
