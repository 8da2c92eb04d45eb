package charts

import (
	"fmt"
	"math"
	"strings"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// roomTable is what each choice is before chance comes in.
func (r report) roomTable() table {
	t := table{
		Title: "What each choice is, and what it holds",
		Intro: "TB is 10¹² bytes.",
		Heads: []head{{"Layout", ""}, {"Drives", "and hot spares"}, {"Usable", "TB"}, {"Meets the demand", ""},
			{"Reaches back", ""}, {"Bays", "used"}, {"One rebuild", "hours"}},
		Rows: r.rowsOf(r.roomCells, false),
	}
	if r.hasCameras() {
		d := r.Site.Demand()
		t.Intro += fmt.Sprintf(" Needed: %s TB, written at %s MB/s on average and %s MB/s at most. “Reaches back” is the age at which footage is overwritten; with room to spare, the age that the longest retention could be raised to if all were raised alike.",
			figure.Exact(d.Needed/array.TB), figure.Exact(d.WriteRate/1e6), figure.Exact(d.PeakRate/1e6)) + r.estimatedDemand()
	}
	return t
}

func (r report) roomCells(o study.Outcome) []cell {
	z := o.Sizing
	shape := fmt.Sprintf("%s of %s, %s", figure.Count(z.Shape.Groups(), "group", "groups"), figure.Count(z.Shape.DrivesInGroup, "drive", "drives"), survives(z.Shape.Tolerance))
	drives := cell{Main: figure.Whole(float64(o.Choice.Drives)), Name: label.OneLine(o.Choice.Drive.Label)}
	if o.Choice.HotSpares > 0 {
		drives.Main += fmt.Sprintf("\u00a0+\u00a0%d", o.Choice.HotSpares)
	}
	meets := cell{Main: "yes"}
	reach := notKnown()
	switch {
	case !r.hasCameras():
		meets, reach = cell{Main: "no cameras given"}, cell{Main: "no cameras given"}
	default:
		reach = cell{Main: figure.Days(z.Retention)}
		if r.Site.Estimated() {
			reach.Sub = figure.Days(z.AtHigh.Retention) + " to " + figure.Days(z.AtLow.Retention) + ", estimated"
		}
		if !z.Meets {
			meets = cell{Main: "no", Sub: fmt.Sprintf("%s TB short", figure.Exact((r.Site.Demand().Needed-z.Usable)/array.TB))}
		}
	}
	if r.hasCameras() && r.Site.Estimated() {
		meets.Sub = strings.TrimPrefix(meets.Sub+"; "+ends(z), "; ")
	}
	bays := cell{Main: figure.Whole(float64(z.BaysUsed))}
	if rec := o.Choice.Recorder; rec != nil && rec.Bays > 0 {
		bays.Main += fmt.Sprintf("\u00a0of\u00a0%d", rec.Bays)
	}
	rebuild := cell{Main: "none: nothing to rebuild from"}
	if o.Redundant() {
		rebuild = exact(z.RebuildRun)
		if o.Choice.Care.Restore != nil {
			rebuild.Sub = "not used: the site file gives the whole time to restore"
		}
	}
	return []cell{{Main: o.Choice.Layout.String(), Sub: shape}, drives, exact(z.Usable / array.TB), meets, reach, bays, rebuild}
}

func survives(tolerance int) string {
	if tolerance == 0 {
		return "survives no failure"
	}
	return "each survives " + figure.Count(tolerance, "failure", "failures")
}

// retentionTable is how far back each camera group reaches.
func (r report) retentionTable() table {
	return table{
		Title: "How far back each camera group reaches",
		Intro: "A full recorder overwrites the oldest footage of all, so the groups that ask for the longest retention fall short first.",
		Heads: []head{{"Held of what is asked for", ""}},
		Rows: r.rowsOf(func(o study.Outcome) []cell {
			var lines []string
			for i, c := range r.Site.Cameras {
				name := label.OneLine(c.Label)
				if name == "" {
					name = fmt.Sprintf("group %d", i+1)
				}
				held := math.NaN()
				if i < len(o.Sizing.Held) {
					held = o.Sizing.Held[i]
				}
				line := fmt.Sprintf("%s: %s of %s", name, figure.Days(held), figure.Days(c.Retention))
				if held < c.Retention {
					line += ", falls short"
				}
				lines = append(lines, line)
			}
			return []cell{{List: lines}}
		}, false),
	}
}

// moneyTable is money and watts.
func (r report) moneyTable() table {
	return table{
		Title: "Money and watts",
		Intro: "In the site's currency. Purchase is drives, hot spares and recorder. Cost per camera-day is the purchase price divided by cameras times the days that each reaches back. Energy is all drives and the idle recorder, all year; it is not priced.",
		Heads: []head{{"Purchase", "currency"}, {"Per usable TB", "currency"}, {"Per camera-day kept", "currency"},
			{"Drives replaced", "currency, over the life"}, {"The same, 95 % of lives", "currency, at most"}, {"Power", "W"}, {"Energy", "kWh a year"}},
		Rows: r.rowsOf(r.moneyCells, false),
	}
}

func (r report) moneyCells(o study.Outcome) []cell {
	z, price := o.Sizing, o.Choice.Drive.Price
	replaced, most := notKnown(), notKnown()
	if !math.IsNaN(price) {
		replaced = estimated(o.Result.DrivesReplaced.Times(price))
		most = counted(o.Result.DrivesReplaced95, price)
	}
	perCameraDay := cell{Main: "no cameras given"}
	if r.hasCameras() {
		perCameraDay = exact(z.PerCameraDay())
	}
	return []cell{money(z.Purchase), exact(z.PerUsableTB()), perCameraDay, replaced, most,
		exact(z.Watts), exact(z.EnergyPerYear())}
}
