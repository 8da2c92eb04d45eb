package sweep

import (
	"context"
	"fmt"
	"math"

	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
)

// spread is where the values of the line lie about its middle, in units of its
// half-length.
var spread = [...]float64{-1, -0.5, 0, 0.5, 1}

// line is f as a straight line over the values tried about middle.
type line struct {
	middle        float64
	height, slope float64 // at middle, and for each unit of u
	// Variances and covariance of the two.
	heights, slopes, both float64
}

// settle lays lines through values beside near, until one gives the break-even
// as narrowly as was asked for or the budget is used up.
func (f *finder) settle(ctx context.Context, near float64, b *BreakEven) error {
	length := f.top - f.low
	half := f.halfLength(near, 0)
	for round := 1; ; round++ {
		middle := math.Min(math.Max(near, f.low+half), f.top-half)
		probes, err := f.beside(ctx, middle, half)
		if err != nil {
			return err
		}
		l := f.through(probes, middle)
		at, low, high, ok := l.zero()
		warnings := f.warnings(probes)
		last := f.blocks >= f.series.budget || probes[0].blocks < f.blocks || round == 30
		if !ok {
			switch {
			case half < length/4: // a longer line knows its slope better
				half = math.Min(2*half, length/4)
			case last:
				b.Flat, b.Crossings, b.StoppedBy = true, 0, engine.ByBudget
				return nil
			default:
				f.blocks = min(4*f.blocks, f.series.budget)
			}
			continue
		}
		got, want := (high-low)/2, f.wanted(at)
		inside := math.Abs(at-middle) <= half
		done := inside && got <= want && len(warnings) == 0
		if done || last {
			b.Found, b.Warnings = true, warnings
			b.Value, b.Low, b.High = f.value(at), f.value(low), f.value(high)
			b.Slope = l.slopeEstimate()
			if !done {
				b.StoppedBy = engine.ByBudget
			}
			if !inside {
				b.Warnings = append(b.Warnings, "the break-even lies outside of the values that were tried: it is drawn out beyond them")
			}
			return nil
		}
		if got > want || len(warnings) > 0 {
			f.blocks = min(engine.NextBlocks(f.blocks, got, want), f.series.budget)
		}
		// The values stay, so that their trials count on, unless the zero is off
		// their middle or they lie too wide for what is known now.
		if fit := f.halfLength(at, got); math.Abs(at-middle) > half/2 || half > 4*fit {
			near, half = math.Min(math.Max(at, f.low), f.top), fit
		}
		f.report(math.Min(0.95, 0.4+0.55*math.Min(1, (want/got)*(want/got))))
	}
}

// halfLength returns how far to each side of u a line should reach: somewhat beyond
// the interval, as it is wanted or as it is.
func (f *finder) halfLength(u, got float64) float64 {
	length := f.top - f.low
	return math.Min(math.Max(1.5*math.Max(f.wanted(u), got), 1e-4*length), length/4)
}

// wanted returns the half-width that the break-even is wanted with, in u.
func (f *finder) wanted(u float64) float64 {
	if f.byRatio {
		return f.opt.Accuracy
	}
	return f.opt.Accuracy * math.Max(math.Abs(u), 1e-3*(f.top-f.low))
}

// beside tries the five values of a line.
func (f *finder) beside(ctx context.Context, middle, half float64) ([]probe, error) {
	var probes []probe
	for _, s := range spread {
		p, err := f.probe(middle + s*half)
		if err != nil {
			return nil, err
		}
		probes = append(probes, p)
	}
	if err := f.run(ctx, f.blocks, probes...); err != nil {
		return nil, err
	}
	for _, p := range probes {
		if p.err != nil {
			return nil, p.err
		}
	}
	return probes, nil
}

// through returns the line through values by least squares. Their weights in it are
// fixed, so each bundle's part in height and slope is a sum of its parts in them.
func (f *finder) through(probes []probe, middle float64) line {
	l := line{middle: middle}
	n, mean, squares := float64(len(probes)), 0.0, 0.0
	for _, p := range probes {
		mean += (p.u - middle) / n
	}
	for _, p := range probes {
		d := p.u - middle - mean
		squares += d * d
	}
	var height, slope [bundles]float64
	for _, p := range probes {
		d := p.u - middle - mean
		ofSlope := d / squares
		ofHeight := 1/n - mean*ofSlope
		by, bundle := f.off(p.member)
		l.height += ofHeight * by
		l.slope += ofSlope * by
		for k, x := range bundle {
			height[k] += ofHeight * x
			slope[k] += ofSlope * x
		}
	}
	for k := range height {
		l.heights += height[k] * height[k]
		l.slopes += slope[k] * slope[k]
		l.both += height[k] * slope[k]
	}
	const of = bundles * (bundles - 1)
	l.heights, l.slopes, l.both = l.heights/of, l.slopes/of, l.both/of
	for _, p := range probes {
		l.heights += p.unseen() * p.unseen() / n
	}
	return l
}

// zero returns where the line is 0, with the ends of Fieller's interval; ok is false
// where the slope may be 0.
func (l line) zero() (at, low, high float64, ok bool) {
	t := t95 * t95
	a := l.slope*l.slope - t*l.slopes
	b := l.height*l.slope - t*l.both
	c := l.height*l.height - t*l.heights
	if !(a > 0) {
		return 0, 0, 0, false
	}
	root := math.Sqrt(math.Max(0, b*b-a*c))
	return l.middle - l.height/l.slope, l.middle + (-b-root)/a, l.middle + (-b+root)/a, true
}

// slopeEstimate returns the slope with its interval.
func (l line) slopeEstimate() estimate.Estimate {
	e := math.Sqrt(l.slopes)
	return estimate.Estimate{Value: l.slope, Low: l.slope - t95*e, High: l.slope + t95*e, RelativeError: math.Abs(e / l.slope)}
}

// warnings returns why the loss chances of values, or of the other choice, cannot be
// trusted.
func (f *finder) warnings(probes []probe) (why []string) {
	worst := func(m *member, what string) {
		if w := engine.Warnings(&m.sums); len(w) > 0 {
			why = append(why, fmt.Sprintf("%s: %s", what, w[0]))
		}
	}
	for _, p := range probes {
		if len(why) == 0 {
			worst(p.member, "beside the break-even")
		}
	}
	if f.other != nil {
		worst(f.other, "of what it is held against")
	}
	return why
}
