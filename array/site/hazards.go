package site

import (
	"slices"

	"arrayodds/array"
	"arrayodds/array/toml"
)

var hazardsKey = Key{Path: "hazards", Kind: toml.SubTable, Doc: "What reaches beyond the single drive."}

var hazardKeys = slices.Concat(
	toml.Inside(Key{Path: "common_cause", Kind: toml.SubTable, Absent: "none",
		Doc: "Events, such as a surge, that strike all running drives of a choice at once."}, []Key{
		{Path: "per_year", Called: "common-cause events a year", Kind: toml.Number, Min: "0", Max: "1000", Required: true, Doc: "Such events in a year, on average."},
		{Path: "each_drive", Called: "chance that a common-cause event kills a drive", Kind: toml.Measured, Quantity: toml.Share, Min: "0", Max: "1", Required: true,
			Doc: "The chance that one running drive fails in such an event."},
	}),
	[]Key{{Path: "degraded_multiplier", Called: "extra load on the drives of a degraded group", Kind: toml.Number, Min: "1", Max: "1000", Default: "1",
		Doc: "What the hazard of a group's other drives is multiplied by, for each of its drives that is down."}},
)

// readHazards reads what reaches beyond the single drive.
func readHazards(t *toml.Table) array.Hazards {
	var h array.Hazards
	if c := t.Child("common_cause"); c != nil {
		c.Number("per_year", &h.CommonPerYear)
		c.Quantity("each_drive", &h.CommonEachDrive)
		c.Done()
	}
	t.Number("degraded_multiplier", &h.DegradedMultiplier)
	t.Done()
	return h
}
