package sim

import (
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// The recorder's part by hand: over 5 years a supply that is down for 0.05 × 48 h a year,
// a system disk for 0.01 × 24 h, and mains that fail twice a year, each outage lasting
// beyond a battery of 1.3 h with a chance of 1/e and then for 1.3 h more in the mean; and
// half an hour for each drive replaced. A part of the hours is as much of what is due.
func TestMissingByRecorderByHand(t *testing.T) {
	t.Parallel()
	site, choice := simtest.OftenFailing()
	site.ServiceLife = 5 * unit.HoursPerYear
	choice.Recorder = &array.Recorder{
		Price: math.NaN(), IdlePower: math.NaN(), SwapDown: 0.5,
		Supply: &array.Part{PerYear: 0.05, Restore: 48}, SystemDisk: &array.Part{PerYear: 0.01, Restore: 24},
		Mains: &array.Mains{PerYear: 2, Mean: 1.3, UPSBridges: 1.3},
	}
	r := run(t, site, choice, few(4))
	for _, c := range []struct {
		what  string
		is    estimate.Estimate
		hours float64 // a year
	}{
		{"power", r.MissingByRecorder.Power, 2.4},
		{"system disk", r.MissingByRecorder.SystemDisk, 0.24},
		{"mains", r.MissingByRecorder.Mains, 2.6 / math.E},
		{"swaps", r.MissingByRecorder.Swaps, 0.5 * r.DrivesReplaced.Value / 5},
	} {
		if want := c.hours / unit.HoursPerYear; !near(c.is.Value, want) {
			t.Errorf("%s: %v, by hand %v", c.what, c.is.Value, want)
		}
		if certain := c.is.Low == c.is.High; certain != (c.what != "swaps") {
			t.Errorf("%s: %+v", c.what, c.is)
		}
	}
}

// What a choice is lost by where nothing else can be, and where no loss was seen.
func TestLossSharesAtTheEnds(t *testing.T) {
	t.Parallel()
	site, choice := simtest.OftenFailing()
	choice.Layout = array.Layout{Level: array.RAID0}
	r := run(t, site, choice, few(4))
	for _, s := range r.LossShares {
		want := estimate.Exact(0)
		if s.Cause == model.FirstFailure {
			want = estimate.Exact(1)
		}
		if s.Estimate != want {
			t.Errorf("RAID 0, %v: %+v", s.Cause, s.Estimate)
		}
	}
	choice.Drive.Life = array.ConstantRate{AFR: 1e-9}
	opt := few(4)
	opt.Plain = true
	if r := run(t, site, choice, opt); r.LossShares != nil {
		t.Errorf("without a loss: %+v", r.LossShares)
	}
}
