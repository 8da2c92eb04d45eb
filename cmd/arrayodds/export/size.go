package export

import (
	"io"
	"math"

	"arrayodds/array"
	"arrayodds/sim/sizing"
)

// sizeJSON writes a sizing as one object. A design is the fewest drives of a model that
// hold the demand in a layout, with the room to grow; drives is null where not even 1 000
// do. customary is whether its groups are no wider than is customary, suggested whether
// it is the one of its layout that costs least. Of a layout that does not fit, enough
// says which drive size, or how many bays, or what share of the bit rates would do.
func sizeJSON(w io.Writer, z sizing.Suggestions) error {
	d := z.Site.Demand()
	return writeJSON(w, object{
		{"format", formatNumber},
		{"site", z.Site.Name},
		{"service_life_hours", z.Site.ServiceLife},
		{"demand", object{
			{"write_bytes_per_second", d.WriteRate},
			{"peak_bytes_per_second", d.PeakRate},
			{"needed_bytes", d.Needed},
			{"needed_bytes_at_low_bitrate", z.Site.Lowest().Demand().Needed},
			{"needed_bytes_at_high_bitrate", z.Site.Highest().Demand().Needed},
			{"growth", z.Site.Growth},
			{"room_bytes", d.Room},
		}},
		{"cameras", list(orEmpty(z.Site.Cameras), func(c array.Cameras) any {
			return object{
				{"label", c.Label},
				{"count", c.Count},
				{"bits_per_second", c.BitRate},
				{"recorded_share", c.Recorded()},
				{"retention_days", c.Retention / 24},
				{"write_bytes_per_second", c.WriteRate()},
				{"needed_bytes", c.Needed()},
			}
		})},
		{"recorder", object{
			{"bays", orNull(z.Bays)},
			{"hot_spares", z.Spares},
			{"link_free_share", known(z.Site.FreeLink(z.Recorder))},
			{"write_limit_free_share", known(freeWrites(z))},
			{"licence_cost", z.LicenceCost()},
		}},
		{"designs", list(orEmpty(z.Fittings), func(f array.Fitting) any { return fittingObject(z, f) })},
		{"short", list(orEmpty(z.Short), shortObject)},
		{"changes", list(z.Site.Changes(), func(ch array.Change) any {
			return object{
				{"label", ch.Label},
				{"room_bytes", ch.Needed},
				{"drives", list(orEmpty(z.Choices), func(c array.Choice) any {
					more, _ := z.Site.MoreOf(c, ch.Needed)
					return object{{"suggestion", c.Label}, {"drives", orNull(more.Drives)}}
				})},
			}
		})},
		{"left_out", orEmpty(z.LeftOut)},
	})
}

// freeWrites returns the share of the recorder's write limit that is left at the peak,
// negative where that is too much, NaN where no limit is stated.
func freeWrites(z sizing.Suggestions) float64 {
	if z.Recorder == nil || z.Recorder.WriteLimit == 0 {
		return math.NaN()
	}
	return 1 - z.Site.Demand().PeakRate/z.Recorder.WriteLimit
}

// orNull returns a number that is not known where it is 0.
func orNull(n int) any {
	if n == 0 {
		return nil
	}
	return n
}

func fittingObject(z sizing.Suggestions, f array.Fitting) object {
	o := object{
		{"drive", f.Drive.Label},
		{"layout", f.Layout.String()},
		{"drives", orNull(f.Choice.Drives)},
		{"drives_at_low_bitrate", orNull(f.Low)},
		{"drives_at_high_bitrate", orNull(f.High)},
		{"groups", orNull(f.Choice.Groups)},
		{"hot_spares", z.Spares},
		{"customary", f.Customary},
		{"fits", f.Fits},
		{"suggested", z.Suggested(f) > 0},
	}
	if !f.Found {
		return append(o, member{"usable_bytes", nil}, member{"could_reach_days", nil}, member{"purchase_cost", nil}, member{"watts", nil},
			member{"energy_kwh_per_year", nil}, member{"workload", nil})
	}
	w := z.Workload(f)
	return append(o,
		member{"usable_bytes", f.Sizing.Usable},
		member{"could_reach_days", list(z.Site.PossibleRetentionByGroup(f.Sizing.Usable), func(hours float64) any { return hours / 24 })},
		member{"purchase_cost", known(f.Sizing.Purchase)},
		member{"watts", known(f.Sizing.Watts)},
		member{"energy_kwh_per_year", known(f.Sizing.EnergyPerYear())},
		member{"workload", object{
			{"footage_bytes_per_year", w.Footage},
			{"scrub_bytes_per_year", w.Scrubs},
			{"rebuild_bytes_per_year", w.Rebuilds},
			{"share_of_rating", known(z.Rated(f))},
		}})
}

func shortObject(s array.Shortfall) any {
	o := object{{"layout", s.Layout.String()}, {"drive", nil}, {"drives", nil}, {"groups", nil}, {"customary", nil}, {"usable_bytes", nil}, {"retention_days", nil}}
	enough := object{{"drive_bytes", nil}, {"bays", orNull(s.Bays)}, {"bitrate_share", nil}}
	if c := s.Choice; c.Drives > 0 {
		o = object{{"layout", s.Layout.String()}, {"drive", c.Drive.Label}, {"drives", c.Drives}, {"groups", c.Groups}, {"customary", s.Customary},
			{"usable_bytes", s.Sizing.Usable}, {"retention_days", s.Sizing.Retention / 24}}
		enough = object{{"drive_bytes", s.Capacity}, {"bays", orNull(s.Bays)}, {"bitrate_share", s.BitRate}}
	}
	return append(o, member{"enough", enough})
}

// sizeCSV writes one row a design.
func sizeCSV(w io.Writer, z sizing.Suggestions) error {
	found := func(figure func(array.Fitting) any) func(array.Fitting) any {
		return func(f array.Fitting) any {
			if !f.Found {
				return nil
			}
			return figure(f)
		}
	}
	var all columns[array.Fitting]
	all.add("drive", "", wideWords, func(f array.Fitting) any { return f.Drive.Label })
	all.add("layout", "", words, func(f array.Fitting) any { return f.Layout.String() })
	all.add("drives", "", whole, found(func(f array.Fitting) any { return f.Choice.Drives }))
	all.add("drives_at_low_bitrate", "", whole, func(f array.Fitting) any { return orNull(f.Low) })
	all.add("drives_at_high_bitrate", "", whole, func(f array.Fitting) any { return orNull(f.High) })
	all.add("groups", "", whole, found(func(f array.Fitting) any { return f.Choice.Groups }))
	all.add("hot_spares", "", whole, func(array.Fitting) any { return z.Spares })
	all.add("customary", "", words, func(f array.Fitting) any { return f.Customary })
	all.add("fits", "", words, func(f array.Fitting) any { return f.Fits })
	all.add("suggested", "", words, func(f array.Fitting) any { return z.Suggested(f) > 0 })
	all.add("usable_TB", "", tenths, found(func(f array.Fitting) any { return f.Sizing.Usable / array.TB }))
	all.add("could_reach_days", "", tenths, found(func(f array.Fitting) any { return f.Sizing.Retention / 24 }))
	all.add("purchase_cost", "", whole, found(func(f array.Fitting) any { return f.Sizing.Purchase }))
	all.add("watts", "", tenths, found(func(f array.Fitting) any { return f.Sizing.Watts }))
	all.add("energy_kWh_per_year", "", whole, found(func(f array.Fitting) any { return f.Sizing.EnergyPerYear() }))
	all.add("workload_TB_per_year", "", tenths, found(func(f array.Fitting) any { return z.Workload(f).Total() / array.TB }))
	all.add("share_of_rating", "", hundred, found(func(f array.Fitting) any { return z.Rated(f) }))
	return writeCSV(w, all.sheet("Designs", z.Fittings))
}
