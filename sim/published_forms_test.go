package sim

import (
	"fmt"
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// V1: Venkatesan, Iliadis, "A General Reliability Model for Data Storage
// Systems", QEST 2012, abstract: with reliable drives, whose lives are much
// longer than repairs, the mean time to data loss hardly depends on the form of
// the life law at an equal mean rate, and does depend on the form of the repair
// law. Below, what it depends on is derived to the first order of repair ÷ life.

const (
	reliableLife   = 10000.0 // hours, mean
	reliableRepair = 1.0     // hours, mean
	reliableDrives = 6
	manyLives      = 20.0 // mean lives in the horizon, so that ages settle
)

// repairForms have one mean. second is E[τ²] ÷ mean².
var repairForms = []struct {
	name   string
	law    law.Time
	second float64
}{
	{"fixed", law.Fixed(reliableRepair), 1},
	{"exponential", law.Exponential(reliableRepair), 2},
	{"lognormal, σ = 1", law.Lognormal{Mu: math.Log(reliableRepair) - 0.5, Sigma: 1}, math.E},
	{"Weibull, shape 1/2", law.Weibull{Scale: reliableRepair / 2, Shape: 0.5}, 6},
}

func reliable(tolerance int, life law.Life, repair law.Time) *model.System {
	return simtest.OneGroup(reliableDrives, tolerance, life, repair, manyLives*reliableLife)
}

// firstOrder is what a fraction of the rate is left out by the derivations: all
// drives' rates times the longest repair that counts, E[τ³] ÷ E[τ²] hours or so.
func firstOrder(tilted float64) float64 { return 2 * reliableDrives * tilted / reliableLife }

// Losses a life for rate λ of a drive: 6·5·λ²·E[τ] with one failure to spare,
// whatever the form of the repair law. With two and one repair at a time, the
// second failure falls at a uniform time into the first repair and what is left
// is E[τ²]/2 for each λ²: 6·5·4·λ³·E[τ²]/2. With both at once, the window is the
// shorter of what is left of the first and the whole of the second, in the mean
// over times of E[min·max]/2 = E[τ]²/2: the form matters no more.
func TestLossDependsOnTheFormOfTheRepairLaw(t *testing.T) {
	const lambda = 1 / reliableLife
	life := law.Constant{PerHour: lambda}
	for i, form := range repairForms {
		_, rest := form.law.Parts()
		tilted := reliableRepair
		if rest != nil {
			tilted = math.Exp(rest.LogMoment(3) - rest.LogMoment(2))
		}
		hours := manyLives * reliableLife
		one := lives(t, reliable(1, life, form.law), 1000, uint64(200+i))(model.LossEvents)
		agrees(t, "V1, one to spare, "+form.name, one, 30*lambda*lambda*reliableRepair*hours, firstOrder(tilted)*one.value)

		const both = 120 * lambda * lambda * lambda * reliableRepair * reliableRepair / 2
		serial := lives(t, reliable(2, life, form.law), 1000, uint64(210+i))(model.LossEvents)
		agrees(t, "V1, two to spare, one repair at a time, "+form.name, serial, both*form.second*hours, firstOrder(tilted)*serial.value)

		sys := reliable(2, life, form.law)
		sys.Repair.Parallel = true
		parallel := lives(t, sys, 1000, uint64(220+i))(model.LossEvents)
		agrees(t, "V1, two to spare, repairs at once, "+form.name, parallel, both*hours, firstOrder(tilted)*parallel.value)
	}
}

// Over many lives a drive's place has a failure for each mean life, whatever the
// form. What is left of the form is the start with new drives, which has died
// out after a few lives: over 20 of them losses come to within 4 % of those of a
// constant rate, while the rate at which a new drive fails is nought for one of
// these laws and without bound for another. How much is left was integrated
// numerically: losses go with ∫m^(t+1) of the renewal density m (scipy 1.10.1,
// numpy 1.24.2).
func TestLossHardlyDependsOnTheFormOfTheLifeLaw(t *testing.T) {
	const lambda, hours = 1 / reliableLife, manyLives * reliableLife
	for i, c := range []struct {
		shape float64
		left  [2]float64 // ∫m^(t+1), as a multiple of a constant rate's
	}{
		{0.85, [2]float64{1.02240, 1.03934}},
		{1, [2]float64{1, 1}},
		{1.5, [2]float64{0.97880, 0.97359}},
		{2.5, [2]float64{0.97507, 0.97384}},
	} {
		if !thorough.Part(i, 3) {
			continue
		}
		life := law.Weibull{Shape: c.shape, Scale: reliableLife / math.Gamma(1+1/c.shape)}
		for j, steady := range []float64{
			30 * lambda * lambda * reliableRepair * hours,
			120 * lambda * lambda * lambda * reliableRepair * reliableRepair * hours, // exponential: E[τ²]/2 is 1
		} {
			events := lives(t, reliable(j+1, life, law.Exponential(reliableRepair)), 500, uint64(230+10*j+i))(model.LossEvents)
			want := c.left[j] * steady
			agrees(t, fmt.Sprintf("V1, Weibull lives of shape %g, %d to spare", c.shape, j+1), events, want, firstOrder(3)*want)
			if got := events.value / steady; !(math.Abs(got-1) < 0.04+withinErrors*events.se/steady) {
				t.Errorf("V1, shape %g, %d to spare: %.4f times the losses of a constant rate", c.shape, j+1, got)
			}
		}
	}
}
