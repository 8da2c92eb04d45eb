package plan

import (
	"context"
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"
	"arrayodds/sim/engine"
	"arrayodds/sim/simtest"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// mirrors is a site of many mirrors with that life, whose failed drives are restored at
// once, so that failures come as they would of drives that always run.
func mirrors(life array.Life, drives int, lead float64) (array.Site, array.Choice) {
	s, c := simtest.OftenFailing()
	s.ServiceLife, s.Build.Lead = 5*8760, lead
	c.Layout.Level, c.Drives, c.Drive.Life = array.RAID10, drives, life
	c.Care.Restore, c.Care.Notice = array.Fixed{Hours: 1e-3}, array.Fixed{}
	return s, c
}

// With constant rates the drives wanted from a failure on are one and a Poisson number,
// by gonum; so is what is enough for 95 % of them.
func TestShelfAgainstPoisson(t *testing.T) {
	t.Parallel()
	for i, c := range []struct {
		afr    float64
		drives int
		lead   float64
	}{{0.02, 8, 336}, {0.04, 24, 336}, {0.05, 100, 720}, {0.1, 200, 720}} {
		if !thorough.Part(i, 2) {
			continue
		}
		s, choice := mirrors(array.ConstantRate{AFR: c.afr}, c.drives, c.lead)
		l, err := newLives(context.Background(), s, choice, engine.Options{Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		further := distuv.Poisson{Lambda: c.afr / 8760 * float64(c.drives) * c.lead}
		want := 1
		for further.CDF(float64(want-1)) < 0.95 {
			want++
		}
		got, enough := l.shelf()
		share := further.CDF(float64(got - 1))
		t.Logf("%+v: %d drives, enough in %.4f (%.4f to %.4f), by gonum %d and %.4f", c, got, enough.Value, enough.Low, enough.High, want, share)
		if got != want || math.Abs(enough.Value-share) > 0.004 {
			t.Errorf("%+v: %d drives, enough in %.4f; by gonum %d and %.4f", c, got, enough.Value, want, share)
		}
		year := c.afr * float64(c.drives)
		for _, y := range l.PerYear {
			if math.Abs(y.Mean.Value-year) > 2.5*(y.Mean.High-y.Mean.Value) {
				t.Errorf("%+v: %+v failures a year, want %g", c, y.Mean, year)
			}
			if most := (distuv.Poisson{Lambda: year}); most.CDF(float64(y.Most)) < 0.945 || y.Most > 0 && most.CDF(float64(y.Most-1)) > 0.955 {
				t.Errorf("%+v: at most %d failures a year", c, y.Most)
			}
		}
	}
}

// The rate behind a short record is uncertain, and differs from life to life: the number
// of further drives is negative binomial. Of a life with rate g, stretches begin at a rate
// of g ÷ (1 + g·n·lead), as none begins within one; Poisson by gonum, the Gamma law
// integrated by gonum.
func TestShelfAgainstNegativeBinomial(t *testing.T) {
	t.Parallel()
	const failures, days, drives, lead = 1, 20000, 60, 720.0
	s, choice := mirrors(array.FieldRecord{Failures: failures, DriveDays: days}, drives, lead)
	l, err := newLives(context.Background(), s, choice, engine.Options{Seed: 2})
	if err != nil {
		t.Fatal(err)
	}
	law := distuv.Gamma{Alpha: failures + 0.5, Beta: 1}
	mean := func(f func(hazard float64) float64) float64 {
		return quad.Fixed(func(y float64) float64 {
			g := math.Exp(y)
			hazard := g / (days * 24) * drives * lead
			return math.Exp(law.LogProb(g)+y) * g / (1 + hazard) * f(hazard)
		}, -25, math.Log(60), 800, nil, 0)
	}
	all := mean(func(float64) float64 { return 1 })
	within := func(k int) float64 {
		return mean(func(h float64) float64 { return distuv.Poisson{Lambda: h}.CDF(float64(k)) }) / all
	}
	want := 1
	for within(want-1) < 0.95 {
		want++
	}
	got, enough := l.shelf()
	t.Logf("%d drives, enough in %.4f (%.4f to %.4f), by gonum %d and %.4f", got, enough.Value, enough.Low, enough.High, want, within(got-1))
	if got != want || math.Abs(enough.Value-within(got-1)) > 0.006 {
		t.Errorf("%d drives, enough in %.4f; by gonum %d and %.4f", got, enough.Value, want, within(got-1))
	}
}
