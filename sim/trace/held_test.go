package trace

import (
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"
	"arrayodds/array/unit"
	"arrayodds/sim/history"
	"arrayodds/sim/model"
	"arrayodds/sim/plain"
	"arrayodds/sim/stream"
)

// apart is three drives without redundancy, each a set, that fail ten times a
// year, and cameras of which the rings reach back unequally far.
func apart(t *testing.T, response float64) *model.System {
	t.Helper()
	site := array.Site{
		ServiceLife: unit.HoursPerYear,
		Cameras: []array.Cameras{
			{Count: 10, BitRate: 1e6, HoursPerDay: 24, Activity: 1, Retention: 60 * 24},
			{Count: 4, BitRate: 2e6, HoursPerDay: 12, Activity: 0.5, Retention: 20 * 24},
		},
		Hazards: array.Hazards{DegradedMultiplier: 1, CommonPerYear: 2, CommonEachDrive: 0.7},
	}
	sys, err := model.New(site, array.Choice{
		Drive: array.Drive{
			Capacity: 12e12, Life: array.ConstantRate{AFR: 10}, HazardMultiplier: 1,
			Transfer: 200e6, Price: math.NaN(), Power: math.NaN(),
		},
		Layout: array.Layout{Level: array.JBOD}, Drives: 3, Groups: 1,
		Care: array.Care{
			Notice: array.Fixed{Hours: 5}, Response: array.Exponential{Mean: response}, Restock: array.Fixed{},
			RebuildShare: 0.5, RebuildFloor: 20e6,
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	return sys
}

// What is held is added up here hour by hour from what it means: at time at, of
// each hour recorded within the ring, the shares of the sets that were up then
// and have not been lost since.
func byTheHour(sys *model.System, events []history.Event, at float64) float64 {
	const step = 0.5
	total, rate := 0.0, 0.0
	for _, r := range sys.Footage.Rings() {
		rate += r.Rate
		for u := at - step/2; u > max(0, at-r.Held); u -= step {
			up, left := 0.0, 0.0
			for s := range sys.Sets {
				isUp, lost := true, false
				for _, e := range events {
					switch {
					case e.At > at || e.Set != s:
					case e.Kind == history.LosesSet && e.At <= u:
						isUp = false
					case e.Kind == history.StartsAgain && e.At <= u:
						isUp = true
					case e.Kind == history.LosesSet:
						lost = true
					}
				}
				if isUp {
					up++
					if !lost {
						left++
					}
				}
			}
			if up > 0 {
				total += r.Rate * step * left / up
			}
		}
	}
	return total / rate
}

func between(held []Held, at float64) float64 {
	for i := 1; i < len(held); i++ {
		if a, b := held[i-1], held[i]; a.At <= at && at < b.At {
			return a.Hours + (b.Hours-a.Hours)*(at-a.At)/(b.At-a.At)
		}
	}
	return held[len(held)-1].Hours
}

// alone says whether a loss is the only one at its time.
func alone(events []history.Event, loss history.Event) bool {
	n := 0
	for _, e := range events {
		if e.Kind == history.LosesSet && e.At == loss.At {
			n++
		}
	}
	return n == 1
}

func TestHeld(t *testing.T) {
	t.Parallel()
	thorough.Only(t, "what is held hour by hour takes a second and a half")
	for _, response := range []float64{20, 700} { // with the second all sets are down now and then
		sys := apart(t, response)
		full, rate := 0.0, 0.0
		for _, r := range sys.Footage.Rings() {
			full += r.Rate * r.Held
			rate += r.Rate
		}
		full /= rate
		p, sums := plain.New(sys), model.NewSums(sys)
		losses, silent := 0, false
		for k := range uint64(5) {
			rnd := stream.New(9, k)
			var rec history.Record
			if !p.Trace(rnd, sums.Begin(), &rec) {
				t.Fatal("a life did not end")
			}
			l, err := newLife(sys, &rec, rnd)
			if err != nil {
				t.Fatal(err)
			}
			up := 3
			for _, e := range l.Events {
				switch e.Kind {
				case history.StartsAgain:
					up++
				case history.LosesSet:
					losses++
					up--
					silent = silent || up == 0
					if alone(l.Events, e) {
						just := byTheHour(sys, rec.Events, e.At-1e-7) - byTheHour(sys, rec.Events, e.At)
						if math.Abs(e.Destroyed/rate-just) > 0.001*full {
							t.Errorf("a loss at %v destroys %v hours of all cameras, by the hour %v", e.At, e.Destroyed/rate, just)
						}
					}
				}
			}
			for at := 10.0; at < sys.Horizon; at += 201.7 {
				if got, want := between(l.Held, at), byTheHour(sys, rec.Events, at); math.Abs(got-want) > 0.01*full {
					t.Errorf("response %v, life %d: at %v %v hours are held, by the hour %v of %v", response, k, at, got, want, full)
				}
			}
		}
		if losses < 50 || response == 700 && !silent {
			t.Errorf("response %v: %d losses, all sets down: %v", response, losses, silent)
		}
	}
}
