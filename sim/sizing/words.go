package sizing

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/array/unit"
	"arrayodds/sim/figure"
)

// NetworkWords compares the peak rate of the streams with the link of the recorder.
func (z Suggestions) NetworkWords() string {
	s := z.Site
	peak := func(s array.Site) string { return unit.FormatBitRate(8 * s.Demand().PeakRate) }
	text := "Network: " + peak(s)
	if s.Estimated() {
		text += " (" + peak(s.Lowest()) + " to " + peak(s.Highest()) + ")"
	}
	text += " when every camera records at once"
	free := s.FreeLink(z.Recorder)
	if math.IsNaN(free) {
		return text + `; link = "1 Gbit/s" under [recorder] would be judged.`
	}
	text += fmt.Sprintf(", of a link of %s: %s of it stays free", unit.FormatBitRate(z.Recorder.Link), share(free))
	if s.Estimated() {
		text += fmt.Sprintf(", %s to %s", share(s.Highest().FreeLink(z.Recorder)), share(s.Lowest().FreeLink(z.Recorder)))
	}
	text += "."
	switch worst := s.Highest().FreeLink(z.Recorder); {
	case worst < 0:
		if free >= 0 {
			text += " At the high end"
		}
		text += " IT IS TOO SLOW."
	case worst < array.EnoughFree:
		text += fmt.Sprintf(" That is little: leave %s for packet headers, bursts, live viewing and export (common practice, no source).", share(array.EnoughFree))
	}
	return text
}

// WriteLimitWords compares the peak rate of the streams with what the recorder takes in;
// empty where that is not stated.
func (z Suggestions) WriteLimitWords() string {
	if z.Recorder == nil || z.Recorder.WriteLimit == 0 {
		return ""
	}
	s, limit := z.Site, z.Recorder.WriteLimit
	rate := func(s array.Site) string { return unit.FormatRate(s.Demand().PeakRate) }
	text := "Writing: " + rate(s)
	if s.Estimated() {
		text += fmt.Sprintf(" (%s to %s)", rate(s.Lowest()), rate(s.Highest()))
	}
	text += fmt.Sprintf(" at the peak, of the recorder's limit of %s: ", unit.FormatRate(limit))
	switch {
	case s.Demand().PeakRate > limit:
		return text + "IT IS TOO MUCH."
	case s.Highest().Demand().PeakRate > limit:
		return text + "at the high end IT IS TOO MUCH."
	}
	return text + share(1-s.Demand().PeakRate/limit) + " of it stays free."
}

// CountedWords says what is counted among the drives and in the cost, and how wide
// groups are by custom.
func (z Suggestions) CountedWords() string {
	text := "Hot spares are not counted (--spares NUMBER)"
	if z.Spares > 0 {
		text = fmt.Sprintf("With %s beside the drives, counted in the bays, the cost and the power", unit.Count(z.Spares, "hot spare", "hot spares"))
	}
	switch {
	case z.Site.Growth > 0:
		text += fmt.Sprintf("; room to grow of %s is counted.", unit.FormatPercent(z.Site.Growth, 4))
	case z.Spares > 0:
		text += "; room for growth is not counted."
	default:
		text += ", nor is room for growth."
	}
	if cost := z.LicenceCost(); cost > 0 {
		text += fmt.Sprintf(" In the cost are %s for the licences of %s.", figure.Money(cost, label.OneLine(z.Site.Currency)), figure.Count(z.Site.CameraCount()-z.Recorder.Licences.Included, "camera", "cameras"))
	}
	source := "common practice, no source"
	if len(z.Site.Widths) > 0 {
		source = "as the site file has it; else common practice, no source"
	}
	return text + fmt.Sprintf(" By custom groups have at most %s (%s); what is wider says so, and takes longer to rebuild beside more drives that may fail. %s", z.Site.WidthWords(), source, array.UnaskedWords())
}

// LicenceCost returns what the licences of the cameras cost.
func (z Suggestions) LicenceCost() float64 {
	if z.Recorder == nil {
		return 0
	}
	return z.Recorder.Licences.Cost(z.Site.CameraCount())
}

// RatingWords says how wear is counted; empty where no drive states a rating.
func (z Suggestions) RatingWords() string {
	if !slices.ContainsFunc(z.Fittings, func(f array.Fitting) bool { return !math.IsNaN(z.Rated(f)) }) {
		return ""
	}
	scrub := "none"
	if hours := z.ScrubHours(); hours > 0 {
		scrub = unit.FormatHours(hours)
	}
	return fmt.Sprintf("%% of rating: what a drive reads and writes in a year, of the workload that it is rated for. Footage counts as written once, and parity and copies with it; a scrub reads each drive at the site's interval (%s); a rebuild reads as many drives as a group has of footage, and writes one. Footage that is viewed or exported comes on top.", scrub)
}

// NoneWords says that nothing fits; empty where something does.
func (z Suggestions) NoneWords() string {
	switch {
	case z.Fit():
		return ""
	case z.Bays > 0:
		return fmt.Sprintf("Nothing fits in %s: larger drives, a recorder with more bays, or less to keep.", unit.Count(z.Bays, "bay", "bays"))
	}
	return fmt.Sprintf("Nothing holds it with %d drives.", array.MaxDrives)
}

// EstimatedWords says between what ends the need lies where bit rates are estimated;
// empty where they are given.
func (z Suggestions) EstimatedWords() string {
	if !z.Site.Estimated() {
		return ""
	}
	need := func(s array.Site) string { return figure.Exact(s.Demand().Needed / array.TB) }
	return fmt.Sprintf("Bit rates are estimated from pixels, frames and codec (common practice, no source): the cameras may need %s to %s TB. Drives are counted for the likely figure, beneath it for the low and the high one. Measure the streams before you buy.",
		need(z.Site.Lowest()), need(z.Site.Highest()))
}

// EnoughTB returns the size of drives that would be enough in TB, rounded up to a tenth.
func EnoughTB(s array.Shortfall) string {
	return fmt.Sprintf("%.1f", math.Ceil(10*s.Capacity/array.TB-1e-9)/10)
}

// EnoughBitRate returns the share of the bit rate that would fit, in per cent, rounded
// down.
func EnoughBitRate(s array.Shortfall) string {
	if s.BitRate < 0.1 {
		return fmt.Sprintf("%.1f", math.Floor(1000*s.BitRate+1e-9)/10)
	}
	return fmt.Sprintf("%.0f", math.Floor(100*s.BitRate+1e-9))
}

// share returns a share in whole per cent, rounded down.
func share(x float64) string {
	if x < 0 {
		return "none"
	}
	return strings.TrimSpace(fmt.Sprintf("%.0f %%", math.Floor(100*x+1e-9)))
}
