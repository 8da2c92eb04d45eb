package simtest

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"

	"pgregory.net/rapid"
)

// DrawSite draws a site and a choice that a reader of site files could give. Lives
// are short and waits long, so that a few lives show much.
func DrawSite(t *rapid.T) (array.Site, array.Choice) {
	chance := func(what string) bool { return rapid.IntRange(0, 2).Draw(t, what) == 0 }
	between := func(what string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, what) }

	site := array.Site{
		ServiceLife: between("years", 0.5, 4) * unit.HoursPerYear,
		Hazards:     array.Hazards{DegradedMultiplier: 1},
	}
	for range rapid.IntRange(0, 3).Draw(t, "camera groups") {
		site.Cameras = append(site.Cameras, array.Cameras{
			Count:       rapid.IntRange(1, 40).Draw(t, "cameras"),
			BitRate:     between("bit/s", 1e6, 8e6),
			HoursPerDay: between("hours a day", 1, 24),
			Activity:    between("activity", 0.1, 1),
			Retention:   between("days", 5, 90) * 24,
		})
	}
	if chance("shared hazards") {
		site.Hazards = array.Hazards{
			CommonPerYear:      between("events a year", 0, 1),
			CommonEachDrive:    between("each drive", 0, 0.4),
			DegradedMultiplier: between("degraded", 1, 3),
		}
	}
	choice := array.Choice{
		Label: "drawn",
		Drive: array.Drive{
			Capacity: between("TB", 2, 20) * array.TB, Life: lifeOf(t), HazardMultiplier: between("multiplier", 0.5, 2),
			Transfer: 200e6, Price: math.NaN(), Power: math.NaN(),
		},
		HotSpares: rapid.IntRange(0, 2).Draw(t, "hot spares"),
		Care: array.Care{
			Notice: timeOf(t, "notice", 20), Response: timeOf(t, "response", 150), Restock: timeOf(t, "restock", 300),
			RebuildShare: 0.5, RebuildFloor: 20e6,
			Parallel: chance("parallel"), Stop: chance("stop"),
		},
	}
	choice.Layout, choice.Drives, choice.Groups = layoutOf(t)
	if chance("latent defects") {
		choice.Drive.LatentMean = between("hours a defect", 3000, 50000)
		if !chance("never scrubbed") {
			choice.Care.Scrub = LawOf(t, "scrub", 400)
		}
	}
	if chance("read errors") {
		choice.Drive.ReadErrorBits = 1e15
	}
	if chance("frailty") {
		choice.Drive.BatchVariance = between("variance", 0.1, 1.5)
	}
	if chance("restore") {
		choice.Care.Restore = LawOf(t, "restore", 150)
	}
	if chance("recorder") {
		choice.Recorder = &array.Recorder{
			Price: math.NaN(), IdlePower: math.NaN(), SwapDown: between("swap", 0, 2),
			Supply: &array.Part{PerYear: 0.1, Restore: 24, Redundant: chance("redundant")},
			Mains:  &array.Mains{PerYear: 2, Mean: 1, UPSBridges: between("battery", 0, 1)},
		}
	}
	return site, choice
}

func lifeOf(t *rapid.T) array.Life {
	afr := rapid.Float64Range(0.05, 0.8).Draw(t, "AFR")
	switch rapid.IntRange(0, 3).Draw(t, "life") {
	case 0:
		return array.ConstantRate{AFR: afr}
	case 1:
		return array.WeibullLife{Shape: rapid.Float64Range(0.7, 3).Draw(t, "shape"), Scale: unit.HoursPerYear / afr}
	case 2:
		return array.RateByYear{AFR: []float64{afr, afr / 3, 2 * afr}}
	}
	k := float64(rapid.IntRange(0, 5).Draw(t, "failures"))
	return array.FieldRecord{Failures: k, DriveDays: (k + 0.5) * 365 / afr}
}

// LawOf draws a law with a typical length of some hours.
func LawOf(t *rapid.T, what string, hours float64) array.Time {
	hours *= rapid.Float64Range(0.2, 2).Draw(t, what)
	switch rapid.IntRange(0, 3).Draw(t, what+" law") {
	case 0:
		return array.Fixed{Hours: hours}
	case 1:
		return array.Exponential{Mean: hours}
	case 2:
		return array.WeibullTime{Min: hours / 4, Scale: hours, Shape: rapid.Float64Range(0.7, 3).Draw(t, what+" shape")}
	}
	return array.Lognormal{Median: hours, P90: hours * rapid.Float64Range(1.5, 4).Draw(t, what+" p90")}
}

// timeOf may be in open hours too, but for the notice, which may not.
func timeOf(t *rapid.T, what string, hours float64) array.Time {
	if what != "notice" && rapid.IntRange(0, 4).Draw(t, what+" in open hours") == 0 {
		return array.OpenHours{Within: hours / 8, Week: unit.Week{{From: 8, To: 17}, {From: 32, To: 41}, {From: 80, To: 100}}}
	}
	return LawOf(t, what, hours)
}

func layoutOf(t *rapid.T) (array.Layout, int, int) {
	groups := rapid.IntRange(1, 3).Draw(t, "groups")
	l := array.Layout{Level: array.Level(rapid.IntRange(int(array.JBOD), int(array.Erasure)).Draw(t, "level"))}
	n := rapid.IntRange(4, 6).Draw(t, "drives in a group")
	switch l.Level {
	case array.RAID1:
		n = rapid.IntRange(2, 3).Draw(t, "copies")
	case array.RAID10:
		n = 4
	case array.RAID50, array.RAID60:
		groups = max(groups, 2)
	case array.Erasure:
		l.Parity = rapid.IntRange(1, 3).Draw(t, "parity")
		l.Data = n - l.Parity
	}
	return l, n * groups, groups
}
