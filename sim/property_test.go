package sim

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"testing"

	"arrayodds/array"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/simtest"

	"pgregory.net/rapid"
)

// Laws that hold for every site. The sites are drawn at random, so that nobody's
// favourite case is what holds.

// few is as many lives as a property needs.
func few(seed uint64) engine.Options {
	return engine.Options{Seed: seed, Accuracy: 1e-6, MaxTrials: 256}
}

func run(t rapid.TB, site array.Site, choice array.Choice, opt engine.Options) Result {
	r, err := Run(context.Background(), site, choice, opt)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// noMore fails where a chance is above another one that it may at most reach.
func noMore(t *rapid.T, what string, less, more estimate.Estimate) {
	if less.Value-more.Value > withinErrors*math.Hypot(less.Value*less.RelativeError, more.Value*more.RelativeError)+1e-12*more.Value {
		t.Fatalf("%s: %.5g (%.2g) and %.5g (%.2g)", what, less.Value, less.RelativeError, more.Value, more.RelativeError)
	}
}

// Up to its first loss, a group that tolerates one failure more lives the same
// life; and when it is lost, one that tolerates less is lost already.
func TestMoreToleranceNeverRaisesRisk(t *testing.T) {
	simtest.CheckSites(t, 30, func(t *rapid.T) {
		site, choice := simtest.DrawSite(t)
		site.Cameras = nil // whose load on the drives would change with the layout
		n := rapid.IntRange(3, 6).Draw(t, "n")
		choice.Drives = n * choice.Groups
		parity := rapid.IntRange(1, min(2, n-2)).Draw(t, "less")
		risk := func(parity int, seed uint64) estimate.Estimate {
			choice.Layout = array.Layout{Level: array.Erasure, Data: n - parity, Parity: parity}
			return run(t, site, choice, few(seed)).LossChance
		}
		noMore(t, "one parity drive more", risk(parity+1, 1), risk(parity, 2))
	})
}

// A longer wait leaves more time for a further failure. For lives without memory
// this holds strictly. For others a drive in repair does not age, which is of a
// higher order: so lives are constant or wear out, and losses by unreadable
// sectors are left out, since there are as many of them as rebuilds.
func TestLongerRepairNeverLowersRisk(t *testing.T) {
	simtest.CheckSites(t, 40, func(t *rapid.T) {
		site, choice := simtest.DrawSite(t)
		site.Cameras, choice.Care.Stop = nil, false
		choice.Drive.Life = array.ConstantRate{AFR: rapid.Float64Range(0.02, 0.5).Draw(t, "AFR")}
		if shape := rapid.Float64Range(0.5, 2).Draw(t, "wear"); shape > 1 {
			choice.Drive.Life = array.WeibullLife{Shape: shape, Scale: 40000}
		}
		choice.Care.Restore = simtest.LawOf(t, "restore", 30)
		if rapid.Bool().Draw(t, "by steps") {
			choice.Care.Restore = nil
			choice.Care.Response = simtest.LawOf(t, "response", 30)
		}
		factor := rapid.Float64Range(1, 4).Draw(t, "longer by")
		quick := run(t, site, choice, few(1)).LossChance
		if choice.Care.Restore != nil {
			choice.Care.Restore = longer(choice.Care.Restore, factor)
		} else {
			choice.Care.Response = longer(choice.Care.Response, factor)
		}
		noMore(t, fmt.Sprintf("repair %g times as long", factor), quick, run(t, site, choice, few(2)).LossChance)
	})
}

func longer(t array.Time, by float64) array.Time {
	switch t := t.(type) {
	case array.Fixed:
		return array.Fixed{Hours: t.Hours * by}
	case array.Exponential:
		return array.Exponential{Mean: t.Mean * by}
	case array.WeibullTime:
		return array.WeibullTime{Min: t.Min * by, Scale: t.Scale * by, Shape: t.Shape}
	case array.Lognormal:
		return array.Lognormal{Median: t.Median * by, P90: t.P90 * by}
	}
	panic("no such law in these tests")
}

// Names, and what else is in the catalogue, change no digit.
func TestRelabellingChangesNothing(t *testing.T) {
	simtest.CheckSites(t, 10, func(t *rapid.T) {
		site, choice := simtest.DrawSite(t)
		other := choice
		other.Label, other.Drive.Label = "another", "renamed"
		site.Drives, site.Choices = []array.Drive{choice.Drive, other.Drive}, []array.Choice{choice, other}
		first := run(t, site, choice, few(3))
		site.Name = "elsewhere"
		site.Drives, site.Choices = []array.Drive{other.Drive, choice.Drive}, []array.Choice{other, choice}
		for i := range site.Cameras {
			site.Cameras[i].Label = fmt.Sprint("group ", i)
		}
		if second := run(t, site, other, few(3)); !reflect.DeepEqual(first, second) {
			t.Fatalf("renamed, %+v becomes %+v", first, second)
		}
	})
}

// The order of camera groups changes sums by their rounding only.
func TestOrderOfCamerasChangesNothing(t *testing.T) {
	simtest.CheckSites(t, 20, func(t *rapid.T) {
		site, choice := simtest.DrawSite(t)
		first := run(t, site, choice, few(4))
		site.Cameras = rapid.Permutation(site.Cameras).Draw(t, "order")
		second := run(t, site, choice, few(4))
		names, figures := estimates(first)
		_, others := estimates(second)
		for i := range figures {
			a, b := figures[i].Value, others[i].Value
			if math.Abs(a-b) > 1e-9*math.Max(math.Abs(a), math.Abs(b)) {
				t.Fatalf("%s is %v, reordered %v", names[i], a, b)
			}
		}
	})
}

// Up to the first incident nothing tells whether it will be skipped.
func TestFirstIncidentUnderStopAndSkip(t *testing.T) {
	simtest.CheckSites(t, 40, func(t *rapid.T) {
		site, choice := simtest.DrawSite(t)
		choice.Drive.LatentMean = rapid.Float64Range(3000, 500000).Draw(t, "hours a defect")
		choice.Drive.ReadErrorBits = rapid.SampledFrom([]float64{0, 1e15, 1e16}).Draw(t, "bits an error")
		choice.Care.Stop = false
		skip := run(t, site, choice, few(5))
		choice.Care.Stop = true
		stop := run(t, site, choice, few(6))
		noMore(t, "first incident, skip and stop", skip.AnyLossChance, stop.AnyLossChance)
		noMore(t, "first incident, stop and skip", stop.AnyLossChance, skip.AnyLossChance)
		if math.Abs(stop.AnyLossChance.Value-stop.LossChance.Value) > 1e-9*stop.LossChance.Value {
			t.Fatalf("under stop every incident is a loss, but %v is not %v", stop.AnyLossChance, stop.LossChance)
		}
	})
}

func TestWorkersChangeNothing(t *testing.T) {
	simtest.CheckSites(t, 15, func(t *rapid.T) {
		site, choice := simtest.DrawSite(t)
		opt := few(7)
		opt.Plain = rapid.Bool().Draw(t, "plain")
		opt.Accuracy = rapid.SampledFrom([]float64{0.05, 1e-6}).Draw(t, "accuracy")
		opt.MaxTrials = 3000 // several rounds
		opt.Workers = 1
		alone := run(t, site, choice, opt)
		for _, workers := range []int{2, 7} {
			opt.Workers = workers
			if together := run(t, site, choice, opt); !reflect.DeepEqual(alone, together) {
				t.Fatalf("with %d workers %+v becomes %+v", workers, alone, together)
			}
		}
		opt.Seed++
		if other := run(t, site, choice, opt); other.DrivesReplaced == alone.DrivesReplaced && alone.DrivesReplaced.RelativeError > 0 {
			t.Fatal("another seed changes nothing")
		}
	})
}
