package trace

import (
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/sim/exact"
	"arrayodds/sim/simtest"
)

// slow is a choice with nothing in it but what a test puts there: drives of 12 TB
// that are rebuilt at 75 MB/s, half of the mean of 200 MB/s on the outer track.
func slow(level array.Level, drives int) (array.Site, array.Choice) {
	site, choice := simtest.NewChained(level, drives, 0.02, 48).Choice()
	choice.Care.Restore = nil
	choice.Care.RebuildShare = 0.5
	choice.Care.Notice, choice.Care.Response = array.Fixed{Hours: 2}, array.Exponential{Mean: 24}
	return site, choice
}

func exactly(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-12*math.Abs(want)) {
		t.Errorf("%s: %.15g, want %.15g", what, got, want)
	}
}

// 12 TB read at one error in 10^14 bits: exp(−0.96) = 0.383 for none (common
// practice, no source). A mirror of two reads one drive, five drives in RAID 5
// read four.
func TestSlowRebuildReads(t *testing.T) {
	for _, c := range []struct {
		level      array.Level
		drives     int
		read, errs float64
	}{{array.RAID1, 2, 12e12, 0.96}, {array.RAID5, 5, 48e12, 3.84}, {array.RAID6, 8, 72e12, 5.76}} {
		site, choice := slow(c.level, c.drives)
		choice.Drive.ReadErrorBits = 1e14
		s, err := NewRebuild(site, choice, nil, []float64{24})
		if err != nil {
			t.Fatal(err)
		}
		steps := s.Runs[0].Steps
		end := steps[len(steps)-1]
		exactly(t, "read", end.Read, c.read)
		exactly(t, "unreadable", end.Unreadable, 1-math.Exp(-c.errs))
		if c.level == array.RAID1 && math.Abs(1-end.Unreadable-0.383) > 5e-4 {
			t.Errorf("none with chance %.4f, want 0.383", 1-end.Unreadable)
		}
		for _, step := range steps { // in between by what is read
			exactly(t, "on the way", step.Unreadable, 1-math.Exp(-c.errs*step.Done))
			exactly(t, "read", step.Read, c.read*step.Done)
		}
	}
}

// By hand: 12 TB at 75 MB/s is 44.44 h, 24 TB twice that; and a further failure
// within the whole time by the chain of the running drives alone.
func TestSlowRebuildTakes(t *testing.T) {
	site, choice := slow(array.RAID6, 8)
	site.Hazards.DegradedMultiplier = 1.5
	s, err := NewRebuild(site, choice, []float64{24e12, 4e12, 24e12}, []float64{168, 0, 24})
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Capacities) != 3 || s.Capacities[s.OwnSize] != 12e12 || s.OwnSize != 1 || len(s.Waits) != 4 || s.Waits[s.OwnWait] != 26 { // notice 2 h, response 24 h
		t.Fatalf("%v, own %d; %v, own %d", s.Capacities, s.OwnSize, s.Waits, s.OwnWait)
	}
	for w, wait := range s.Waits {
		for c, capacity := range s.Capacities {
			r := s.Runs[w*len(s.Capacities)+c]
			exactly(t, "rebuild", r.Rebuild, capacity/75e6/3600)
			exactly(t, "exposed", r.Exposed, wait+r.Rebuild)
			waited := false
			for i, step := range r.Steps {
				if i > 0 && !(step.Hours > r.Steps[i-1].Hours) {
					t.Errorf("hour %g after %g", step.Hours, r.Steps[i-1].Hours)
				}
				waited = waited || step.Hours == wait && step.Done == 0
				exactly(t, "done", step.Done, math.Max(0, step.Hours-wait)/r.Rebuild)
				// The chain's matrix has its digits to about 1e-13.
				want := exact.Chain{Drives: 6, FailurePerHour: 1.5 * 1.5 * 0.02 / 8760}.LossBy(step.Hours)
				if math.Abs(step.Further-want) > 1e-11*want {
					t.Errorf("further failure by %g h: %g, chain %g", step.Hours, step.Further, want)
				}
			}
			if !waited || r.Steps[0] != (RebuildStep{}) || math.Abs(r.Steps[len(r.Steps)-1].Hours-r.Exposed) > 1e-9 || len(r.Steps) != 41 {
				t.Errorf("wait %g, %g bytes: %d steps from %+v to %+v", wait, capacity, len(r.Steps), r.Steps[0], r.Steps[len(r.Steps)-1])
			}
		}
	}
}

// Defects are there at hour 0: rate × mean dwell where there is a scrub, rate ×
// half the life where there is none. Rates are the life's mean ones.
func TestSlowRebuildRates(t *testing.T) {
	first := func(change func(*array.Choice)) RebuildRun {
		t.Helper()
		site, choice := slow(array.RAID5, 5)
		change(&choice)
		s, err := NewRebuild(site, choice, nil, []float64{24})
		if err != nil {
			t.Fatal(err)
		}
		return s.Runs[0]
	}
	r := first(func(c *array.Choice) { c.Drive.LatentMean = 60000; c.Care.Scrub = array.Fixed{Hours: 168} })
	exactly(t, "scrubbed", r.Steps[0].Unreadable, 1-math.Exp(-4*168.0/60000))
	exactly(t, "to the end", r.Steps[40].Unreadable, r.Steps[0].Unreadable)
	r = first(func(c *array.Choice) { c.Drive.LatentMean = 60000 })
	exactly(t, "never scrubbed", r.Steps[0].Unreadable, 1-math.Exp(-4*21900.0/60000))

	hours := 24 + 12e12/75e6/3600
	r = first(func(c *array.Choice) { c.Drive.Life = array.RateByYear{AFR: []float64{0.01, 0.02, 0.03, 0.04, 0.05}} })
	exactly(t, "by year", r.Steps[40].Further, 1-math.Exp(-4*0.03/8760*hours))
	r = first(func(c *array.Choice) {
		c.Drive.Life = array.FieldRecord{Failures: 21, DriveDays: 612000}
		c.Drive.HazardMultiplier = 2
	})
	exactly(t, "record", r.Steps[40].Further, 1-math.Exp(-4*2*21.5/(612000*24)*hours))
	r = first(func(c *array.Choice) { c.Care.Restore = array.Lognormal{Median: 24, P90: 95.787243753415112} })
	if math.Abs(r.Rebuild-43.0023097921728) > 1e-9 || r.Exposed != r.Rebuild { // scipy 1.10.1, as in sim/law
		t.Errorf("restore law: %g h of %g", r.Rebuild, r.Exposed)
	}
}

func TestSlowRebuildElsewhere(t *testing.T) {
	site, choice := slow(array.RAID5, 5)
	choice.HotSpares = 1
	if s, err := NewRebuild(site, choice, nil, []float64{0, 26}); err != nil || s.OwnWait != 0 {
		t.Errorf("with a hot spare the own wait is %v, %v", s.OwnWait, err)
	}
	for _, level := range []array.Level{array.JBOD, array.RAID0} {
		site, choice := slow(level, 5)
		if s, err := NewRebuild(site, choice, nil, nil); err != nil || s.Runs != nil {
			t.Errorf("%v: %+v, %v", level, s, err)
		}
	}
	for _, c := range []struct{ sizes, waits []float64 }{
		{[]float64{0}, []float64{1}}, {[]float64{math.NaN()}, []float64{1}}, {nil, []float64{-1}}, {nil, []float64{math.Inf(1)}},
	} {
		if _, err := NewRebuild(site, choice, c.sizes, c.waits); err == nil {
			t.Errorf("%v and %v were taken", c.sizes, c.waits)
		}
	}
	choice.Drives = 2
	if _, err := NewRebuild(site, choice, nil, []float64{1}); err == nil {
		t.Error("RAID 5 of two drives was taken")
	}
}
