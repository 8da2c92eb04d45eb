package simtest

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"

	"pgregory.net/rapid"
)

// DrawRealisticSite draws a site and a choice over the whole contract, as [DrawSite]
// does, but with drives that fail as seldom as those that are sold, so that most of its
// losses are rare.
func DrawRealisticSite(t *rapid.T) (array.Site, array.Choice) {
	d := drawer{t}
	site := array.Site{
		ServiceLife: d.between("years", 1, 8) * unit.HoursPerYear,
		Hazards:     array.Hazards{DegradedMultiplier: 1},
	}
	for range d.whole("camera groups", 0, 2) {
		site.Cameras = append(site.Cameras, array.Cameras{
			Count:       d.whole("cameras", 1, 60),
			BitRate:     d.between("bit/s", 1e6, 8e6),
			HoursPerDay: d.between("hours a day", 4, 24),
			Activity:    d.between("activity", 0.2, 1),
			Retention:   d.between("days", 7, 90) * 24,
		})
	}
	if d.one("common cause", 3) {
		site.Hazards.CommonPerYear = d.decades("events a year", 1e-3, 0.3)
		site.Hazards.CommonEachDrive = d.decades("each drive", 1e-3, 0.2)
	}
	if d.one("degraded", 3) {
		site.Hazards.DegradedMultiplier = d.between("multiplier", 1, 4)
	}
	choice := array.Choice{
		Label: "drawn",
		Drive: array.Drive{
			Capacity: d.between("TB", 2, 24) * array.TB, Life: d.life(), HazardMultiplier: d.between("times", 0.7, 2),
			Transfer: d.between("bytes/s", 120e6, 280e6), Price: math.NaN(), Power: math.NaN(),
		},
		HotSpares: d.whole("hot spares", 0, 3),
		Care: array.Care{
			Notice: d.wait("notice", 1, 24, false), Response: d.wait("response", 8, 500, true), Restock: d.wait("restock", 24, 1000, true),
			RebuildShare: d.between("share", 0.2, 1), RebuildFloor: 20e6,
			Parallel: d.one("parallel", 3), Stop: d.one("stop", 3),
		},
	}
	choice.Layout, choice.Drives, choice.Groups = d.layout()
	if d.one("latent defects", 3) {
		choice.Drive.LatentMean = d.decades("hours a defect", 1e4, 1e6)
		if !d.one("never scrubbed", 5) {
			choice.Care.Scrub = LawOf(t, "scrub", 300)
		}
	}
	if d.one("read errors", 3) {
		choice.Drive.ReadErrorBits = d.decades("bits an error", 1e14, 1e16)
	}
	if d.one("frailty", 3) {
		choice.Drive.BatchVariance = d.between("variance", 0.1, 1)
	}
	if d.one("restore", 4) {
		choice.Care.Restore = LawOf(t, "restore", d.decades("restore", 10, 200))
	}
	if d.one("recorder", 3) {
		choice.Recorder = &array.Recorder{
			Price: math.NaN(), IdlePower: math.NaN(), SwapDown: d.between("swap", 0, 2),
			Supply: &array.Part{PerYear: 0.03, Restore: 24, Redundant: d.one("redundant", 2)},
			Mains:  &array.Mains{PerYear: 1, Mean: 1, UPSBridges: d.between("battery", 0, 1)},
		}
	}
	return site, choice
}

// drawer draws what sites are made of.
type drawer struct{ *rapid.T }

func (d drawer) whole(what string, low, high int) int {
	return rapid.IntRange(low, high).Draw(d.T, what)
}

// one reports true in one of n cases.
func (d drawer) one(what string, n int) bool { return d.whole(what, 1, n) == 1 }

func (d drawer) between(what string, low, high float64) float64 {
	return rapid.Float64Range(low, high).Draw(d.T, what)
}

// decades draws evenly by the logarithm.
func (d drawer) decades(what string, low, high float64) float64 {
	return low * math.Pow(high/low, d.between(what, 0, 1))
}

func (d drawer) life() array.Life {
	afr := d.decades("AFR", 0.004, 0.06)
	switch d.whole("life", 0, 4) {
	case 0:
		return array.ConstantRate{AFR: afr}
	case 1:
		shape := d.between("shape", 0.7, 2.5)
		return array.WeibullLife{Shape: shape, Scale: 5 * unit.HoursPerYear / math.Pow(5*afr, 1/shape)}
	case 2:
		return array.RateByYear{AFR: []float64{2 * afr, afr / 2, afr / 2, afr, 2 * afr}}
	case 3:
		shape := d.between("shape", 0.8, 2)
		return array.FittedWeibull{
			Shape: shape, Scale: 5 * unit.HoursPerYear / math.Pow(5*afr, 1/shape),
			ShapeError: d.between("error of the shape", 0.02, 0.15), ScaleError: d.between("error of the scale", 0.05, 0.3),
			Correlation: d.between("correlation", -0.8, 0),
		}
	}
	k := float64(d.whole("failures", 0, 40))
	return array.FieldRecord{Failures: k, DriveDays: (k + 0.5) * 365 / afr}
}

func (d drawer) wait(what string, low, high float64, open bool) array.Time {
	hours := d.decades(what, low, high)
	if open && d.one(what+" in open hours", 4) {
		return array.OpenHours{Within: max(1, hours/5), Week: office}
	}
	return LawOf(d.T, what, hours)
}

func (d drawer) layout() (array.Layout, int, int) {
	groups := d.whole("groups", 1, 4)
	l := array.Layout{Level: array.Level(d.whole("level", int(array.JBOD), int(array.Erasure)))}
	n := d.whole("drives in a group", 4, 16)
	switch l.Level {
	case array.RAID1:
		n = d.whole("copies", 2, 3)
	case array.RAID10:
		n = 2 * d.whole("pairs", 2, 6)
	case array.RAID50, array.RAID60:
		groups = max(groups, 2)
	case array.Erasure:
		l.Parity = d.whole("parity", 1, 4)
		n = max(n, l.Parity+2)
		l.Data = n - l.Parity
	}
	return l, n * groups, groups
}
