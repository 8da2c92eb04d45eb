package simtest

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"
)

// OftenFailing returns a site whose drives fail often, one group of six with double parity.
func OftenFailing() (array.Site, array.Choice) {
	site := array.Site{
		ServiceLife: 2 * unit.HoursPerYear,
		Cameras: []array.Cameras{
			{Count: 10, BitRate: 4e6, HoursPerDay: 24, Activity: 1, Retention: 60 * 24},
			{Count: 4, BitRate: 2e6, HoursPerDay: 12, Activity: 0.5, Retention: 20 * 24},
		},
		Hazards: array.Hazards{DegradedMultiplier: 1},
	}
	choice := array.Choice{
		Label: "wild",
		Drive: array.Drive{
			Capacity: 12e12, Life: array.ConstantRate{AFR: 1}, HazardMultiplier: 1,
			Transfer: 200e6, Price: math.NaN(), Power: math.NaN(),
		},
		Layout: array.Layout{Level: array.RAID6},
		Drives: 6, Groups: 1,
		Care: array.Care{
			Notice: array.Fixed{Hours: 10}, Response: array.Fixed{Hours: 200}, Restock: array.Fixed{Hours: 400},
			RebuildShare: 0.5, RebuildFloor: 20e6,
		},
	}
	return site, choice
}

// Variation changes a site and a choice that [OftenFailing] returns.
type Variation struct {
	Name string
	Make func(*array.Site, *array.Choice)
}

// Sites reach every rule of failure and repair between them; none is meant to look
// like one that anybody runs.
var Sites = []Variation{
	{"as it stands", func(s *array.Site, c *array.Choice) {}},
	{"Weibull lives, lognormal response", func(s *array.Site, c *array.Choice) {
		c.Drive.Life = array.WeibullLife{Shape: 1.6, Scale: 9000}
		c.Care.Response = array.Lognormal{Median: 100, P90: 600} // σ 1.4
	}},
	{"infant mortality, parallel rebuilds", func(s *array.Site, c *array.Choice) {
		c.Drive.Life = array.WeibullLife{Shape: 0.7, Scale: 15000}
		c.Care.Parallel = true
		c.Care.Notice = array.Exponential{Mean: 50}
		c.Care.Response = array.WeibullTime{Min: 24, Scale: 200, Shape: 1.5}
	}},
	{"one spare that runs out", func(s *array.Site, c *array.Choice) {
		c.HotSpares = 1
		c.Care.Restock = array.Lognormal{Median: 500, P90: 3000}
		c.Care.Response = array.Exponential{Mean: 300}
	}},
	{"defects, read errors, skip", func(s *array.Site, c *array.Choice) {
		c.Drive.LatentMean = 4000
		c.Drive.ReadErrorBits = 1e15
		c.Care.Scrub = array.WeibullTime{Min: 6, Scale: 300, Shape: 3}
	}},
	{"defects, read errors, stop", func(s *array.Site, c *array.Choice) {
		c.Drive.LatentMean = 20000
		c.Drive.ReadErrorBits = 1e15
		c.Care.Scrub = array.Lognormal{Median: 1000, P90: 9000}
		c.Care.Stop = true
		c.Care.Response = array.Exponential{Mean: 200}
	}},
	{"never scrubbed, single parity", func(s *array.Site, c *array.Choice) {
		c.Layout = array.Layout{Level: array.RAID5}
		c.Drive.LatentMean = 30000
		c.Drive.Life = array.ConstantRate{AFR: 0.4}
	}},
	{"common cause", func(s *array.Site, c *array.Choice) {
		s.Hazards = array.Hazards{CommonPerYear: 0.7, CommonEachDrive: 0.25, DegradedMultiplier: 1.5}
		c.HotSpares = 1
	}},
	{"common cause over sets, defects, stop", func(s *array.Site, c *array.Choice) {
		s.Hazards = array.Hazards{CommonPerYear: 1, CommonEachDrive: 0.3, DegradedMultiplier: 1}
		c.Drives, c.Groups = 12, 3
		c.Layout = array.Layout{Level: array.RAID5}
		c.Drive.LatentMean = 50000
		c.Care.Stop = true
		c.Drive.Life = array.ConstantRate{AFR: 0.2}
	}},
	{"frailty of variance 1, degraded multiplier", func(s *array.Site, c *array.Choice) {
		c.Drive.BatchVariance = 1
		c.Drive.Life = array.WeibullLife{Shape: 1.2, Scale: 12000, Min: 500}
		s.Hazards.DegradedMultiplier = 2
	}},
	{"open hours, exponential notice", func(s *array.Site, c *array.Choice) {
		week := unit.Week{{From: 8, To: 17}, {From: 32, To: 41}, {From: 56, To: 65}}
		c.Care.Notice = array.Exponential{Mean: 20}
		c.Care.Response = array.OpenHours{Within: 20, Week: week}
		c.Care.Restock = array.OpenHours{Within: 40, Week: week}
		c.HotSpares = 1
	}},
	{"striped set of three groups", func(s *array.Site, c *array.Choice) {
		c.Layout = array.Layout{Level: array.RAID50}
		c.Drives, c.Groups = 12, 3
		c.Drive.Life = array.ConstantRate{AFR: 0.4}
		c.Drive.ReadErrorBits = 1e15
		c.Care.Restore = array.Exponential{Mean: 150}
	}},
	{"mirrored pairs in two sets", func(s *array.Site, c *array.Choice) {
		c.Layout = array.Layout{Level: array.RAID10}
		c.Drives, c.Groups = 8, 2
		c.Care.Restore = array.Lognormal{Median: 100, P90: 500}
		c.HotSpares = 2
	}},
	{"JBOD, ring too small", func(s *array.Site, c *array.Choice) {
		c.Layout = array.Layout{Level: array.JBOD}
		c.Drives = 3
		s.Cameras[0].Retention = 90 * 24
		s.Hazards = array.Hazards{CommonPerYear: 0.5, CommonEachDrive: 0.6, DegradedMultiplier: 1}
		c.Recorder = &array.Recorder{Price: math.NaN(), IdlePower: math.NaN(), SwapDown: 4,
			Mains: &array.Mains{PerYear: 2, Mean: 1.3, UPSBridges: 0.5}}
	}},
	{"RAID 0", func(s *array.Site, c *array.Choice) {
		c.Layout = array.Layout{Level: array.RAID0}
		c.Drives, c.Groups = 4, 2
		c.Drive.Life = array.RateByYear{AFR: []float64{0.9, 0.3}}
	}},
	{"a thin record, triple parity in two groups, spares shared", func(s *array.Site, c *array.Choice) {
		c.Layout = array.Layout{Level: array.TripleParity}
		c.Drives, c.Groups, c.HotSpares = 12, 2, 2
		c.Drive.Life = array.FieldRecord{Failures: 3, DriveDays: 600}
		c.Drive.BatchVariance = 0.5
		c.Care.Restock = array.Exponential{Mean: 500}
		c.Care.Notice = array.Fixed{Hours: 0}
		c.Care.Response = array.Exponential{Mean: 400}
		c.Care.Restore = nil
	}},
	{"a fitted Weibull", func(s *array.Site, c *array.Choice) {
		c.Drive.Life = array.FittedWeibull{Shape: 1.3, Scale: 12000, ShapeError: 0.2, ScaleError: 0.3, Correlation: -0.5}
		c.Drive.HazardMultiplier = 1.5
	}},
	{"serial restore, tolerance 2 of 10, defects", func(s *array.Site, c *array.Choice) {
		c.Drives = 10
		c.Care.Restore = array.WeibullTime{Min: 12, Scale: 150, Shape: 0.8}
		c.Drive.LatentMean = 3000
		c.Drive.ReadErrorBits = 1e15
		c.Care.Scrub = array.Fixed{Hours: 168}
	}},
}
