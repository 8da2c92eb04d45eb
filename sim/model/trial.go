package model

import "math"

// Quantity names one figure that a life adds up.
type Quantity int

// The quantities, each over the whole service life.
const (
	Loss            Quantity = iota // chance of at least one group loss
	Any                             // chance of at least one incident
	LossEvents                      // group losses
	Incidents                       // group losses and moments at which unreadable sectors are met
	Stripes                         // stripe units lost to unreadable sectors under skip
	Unprotected                     // hours of groups at their tolerance
	Rebuilds                        // rebuilds finished
	Failures                        // drives failed
	Destroyed                       // camera-hours destroyed, each once
	MissingDrives                   // camera-hours × hours missing because of drives
	MissingSectors                  // the same because of unreadable sectors
	LossBeforeWhole                 // chance of a first loss before all drives have run again, of lives that begin with some down
	MissingChance                   // all of the missing that chance has a part in, swaps too; Sums fills it in
	quantities
)

var quantityNames = [quantities]string{
	Loss: "loss", Any: "any incident", LossEvents: "loss events", Incidents: "incidents", Stripes: "stripes",
	Unprotected: "unprotected", Rebuilds: "rebuilds", Failures: "failures", Destroyed: "destroyed",
	MissingDrives: "missing by drives", MissingSectors: "missing by sectors", MissingChance: "missing",
	LossBeforeWhole: "loss before whole",
}

// String returns the quantity in words.
func (q Quantity) String() string { return quantityNames[q] }

// Amounts is one number for each quantity.
type Amounts [quantities]float64

// Trial is what one simulated life, with all its branches, adds up. A line of
// weight w that sees x adds w·x.
type Trial struct {
	Amounts  Amounts
	ByCause  ByCause // the loss chance by what makes it
	Controls Controls
	Curve    []float64      // first-loss weight by the year in which it falls
	Steps    []float64      // the same by the step in which it falls, where the system asks for steps
	Years    []YearControls // by the year too, of the lives of its batch so far
	sums     *Sums
}

// Add adds an amount to a quantity.
func (t *Trial) Add(q Quantity, x float64) { t.Amounts[q] += x }

// Control adds an amount to a control.
func (t *Trial) Control(c Control, x float64) { t.Controls[c] += x }

// Stratum returns the trial's own stratum of a uniform number, of [Strata] that are
// equally likely: all of a batch have different ones. of tells numbers apart, of which
// there are [Stratified]; those of one trial are independent of each other.
func (t *Trial) Stratum(of int) int {
	return (t.sums.batch.lives*(2*of+1) + t.sums.batch.first[of]) % Strata
}

// Stratify gives the batch whose first trial this is a random order of its strata, for
// u uniform in [0, 1). Of other trials it does nothing.
func (t *Trial) Stratify(u float64) {
	if t.sums.batch.lives > 0 {
		return
	}
	for of := range t.sums.batch.first {
		u *= Strata
		first := int(u)
		t.sums.batch.first[of] = first
		u -= float64(first)
	}
}

// FirstLoss adds weight to the chance of a first loss by a cause, at a time within
// the horizon.
func (t *Trial) FirstLoss(at, weight float64, by Cause) {
	t.Amounts[Loss] += weight
	t.ByCause[by] += weight
	t.Curve[t.Year(at)] += weight
	if n := len(t.Steps); n > 0 {
		t.Steps[min(int(at/t.sums.stepHours), n-1)] += weight
	}
}

// Year returns the year of a life in which a time falls, counted from 0.
func (t *Trial) Year(at float64) int { return min(int(at/curveStep), len(t.Curve)-1) }

// InYear adds an amount to a control of a year, counted from 0.
func (t *Trial) InYear(year int, c YearControl, x float64) { t.Years[year][c] += x }

// curveStep is the step of the curve over time: a year.
const curveStep = 8760

// YearEnd returns when a year of a life ends, counted from 0, in hours.
func YearEnd(year int) float64 { return float64(year+1) * curveStep }

// CurveLength returns the number of years that a horizon takes, the last one perhaps
// cut short.
func CurveLength(horizon float64) int { return max(1, int(math.Ceil(horizon/curveStep))) }

// LifeEnds notes that a line of that weight ends its life with so many drives
// failed.
func (t *Trial) LifeEnds(failures int, weight float64) {
	if !t.sums.FiguresOnly {
		t.sums.Failures.add(failures, weight)
	}
}

// SetLost notes the camera-hours that one loss of a set destroys.
func (t *Trial) SetLost(destroyed, weight float64) {
	if t.sums.FiguresOnly {
		return
	}
	if destroyed != t.sums.lost.destroyed { // a full ring is always the same
		t.sums.lost.destroyed, t.sums.lost.bin = destroyed, lossBin(destroyed)
	}
	t.sums.PerLoss.add(t.sums.lost.bin, weight)
}

// Work counts the work done, about a hundred nanoseconds each. It reports whether the
// life may go on; where not, the trial is not to be ended.
func (t *Trial) Work(units int) (goOn bool) {
	t.sums.Work += int64(units)
	return t.sums.Work <= t.sums.MostWork && !t.sums.Stop.Load()
}
