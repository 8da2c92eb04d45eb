package array

import "arrayodds/array/unit"

// A Time is a length of time that may be a matter of chance. What is computed from
// it stands in package sim/law.
type Time interface {
	// Times returns the law of lengths that are by times as long; by is above 0.
	// The shape of the law stays.
	Times(by float64) Time
	// Memoryless reports whether the law is exponential.
	Memoryless() bool
	// Caution returns what a reader should know before acting on figures that rest
	// on a law of this kind; empty where that is nothing.
	Caution() string
}

// Fixed is a length without chance.
type Fixed struct{ Hours float64 }

// Times returns a length that is by times as long.
func (t Fixed) Times(by float64) Time { return Fixed{t.Hours * by} }

// Memoryless reports false.
func (Fixed) Memoryless() bool { return false }

// Caution returns nothing.
func (Fixed) Caution() string { return "" }

// Exponential is a length without memory.
type Exponential struct{ Mean float64 } // hours, above 0

// Times returns the law of lengths that are by times as long.
func (t Exponential) Times(by float64) Time { return Exponential{t.Mean * by} }

// Memoryless reports true.
func (Exponential) Memoryless() bool { return true }

// Caution returns nothing.
func (Exponential) Caution() string { return "" }

// WeibullTime is Min plus a Weibull length.
type WeibullTime struct {
	Min   float64 // hours, 0 or more
	Scale float64 // hours, above 0
	Shape float64 // above 0
}

// Times returns the law of lengths that are by times as long.
func (t WeibullTime) Times(by float64) Time {
	return WeibullTime{Min: t.Min * by, Scale: t.Scale * by, Shape: t.Shape}
}

// Memoryless reports whether it is the exponential law.
func (t WeibullTime) Memoryless() bool { return t.Shape == 1 && t.Min == 0 }

// Caution returns nothing.
func (WeibullTime) Caution() string { return "" }

// Lognormal is a length whose logarithm is normal: half are shorter than
// Median and nine in ten shorter than P90.
type Lognormal struct {
	Median float64 // hours, above 0
	P90    float64 // hours, above Median
}

// Times returns the law of lengths that are by times as long.
func (t Lognormal) Times(by float64) Time { return Lognormal{Median: t.Median * by, P90: t.P90 * by} }

// Memoryless reports false.
func (Lognormal) Memoryless() bool { return false }

// Caution returns nothing.
func (Lognormal) Caution() string { return "" }

// OpenHours ends when Within hours have passed that lie in the open spans of
// the week. Holidays are not known to it.
type OpenHours struct {
	Within float64 // open hours, 0 or more
	Week   unit.Week
}

// Times returns the law of by times as many open hours.
func (t OpenHours) Times(by float64) Time { return OpenHours{Within: t.Within * by, Week: t.Week} }

// Memoryless reports false.
func (OpenHours) Memoryless() bool { return false }

// Caution says that holidays are not known.
func (OpenHours) Caution() string {
	return "Times counted in open hours know the week but no holidays: over a holiday season a response takes longer than is counted here."
}
