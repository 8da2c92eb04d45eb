package compare

import (
	"fmt"
	"math"
	"strings"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/charts/page"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// roomTable returns the table of what each choice is before chance comes in.
func (r report) roomTable() page.Table {
	t := page.Table{
		Title: "What each choice is, and what it holds",
		Intro: "TB is 10¹² bytes.",
		Columns: []page.Column{{Name: "Layout"}, {Name: "Drives", Unit: "and hot spares"}, {Name: "Usable", Unit: "TB"}, {Name: "Meets the demand"},
			{Name: "Reaches back"}, {Name: "Bays", Unit: "used"}, {Name: "One rebuild", Unit: "hours"}},
		Rows: r.rowsOf(r.roomCells, false),
	}
	if r.hasCameras() {
		d := r.Site.Demand()
		t.Intro += fmt.Sprintf(" Needed: %s TB%s, written at %s MB/s on average and %s MB/s at most. “Reaches back” is the age at which footage is overwritten; with room to spare, the age that the longest retention could be raised to if all were raised alike.",
			figure.Exact(d.Needed/array.TB), r.Site.GrowthWords(figure.Exact), figure.Exact(d.WriteRate/1e6), figure.Exact(d.PeakRate/1e6)) + r.estimatedDemand()
	}
	return t
}

func (r report) roomCells(o study.Outcome) []page.Cell {
	z := o.Sizing
	shape := fmt.Sprintf("%s of %s, %s", figure.Count(z.Shape.Groups(), "group", "groups"), figure.Count(z.Shape.DrivesInGroup, "drive", "drives"), survives(z.Shape.Tolerance))
	drives := page.Cell{Main: figure.Whole(float64(o.Choice.Drives)), Name: label.OneLine(o.Choice.Drive.Label)}
	if o.Choice.HotSpares > 0 {
		drives.Main += fmt.Sprintf("\u00a0+\u00a0%d", o.Choice.HotSpares)
	}
	meets := page.Cell{Main: "yes"}
	reach := page.UnknownCell()
	switch {
	case !r.hasCameras():
		meets, reach = page.Cell{Main: "no cameras given"}, page.Cell{Main: "no cameras given"}
	default:
		reach = page.Cell{Main: figure.Days(z.Retention)}
		if r.Site.Estimated() {
			reach.Sub = figure.Days(z.AtHigh.Retention) + " to " + figure.Days(z.AtLow.Retention) + ", estimated"
		}
		if !z.Meets {
			meets = page.Cell{Main: "no", Sub: fmt.Sprintf("%s TB short", figure.Exact((r.Site.Demand().Room-z.Usable)/array.TB))}
		}
	}
	if r.hasCameras() && r.Site.Estimated() {
		meets.Sub = strings.TrimPrefix(meets.Sub+"; "+ends(z), "; ")
	}
	bays := page.Cell{Main: figure.Whole(float64(z.BaysUsed))}
	if rec := o.Choice.Recorder; rec != nil && rec.Bays > 0 {
		bays.Main += fmt.Sprintf("\u00a0of\u00a0%d", rec.Bays)
	}
	rebuild := page.Cell{Main: "none: nothing to rebuild from"}
	if o.Redundant() {
		rebuild = page.ExactCell(z.RebuildRun)
		if o.Choice.Care.Restore != nil {
			rebuild.Sub = "not used: the site file gives the whole time to restore"
		}
	}
	return []page.Cell{{Main: o.Choice.Layout.String(), Sub: shape}, drives, page.ExactCell(z.Usable / array.TB), meets, reach, bays, rebuild}
}

func survives(tolerance int) string {
	if tolerance == 0 {
		return "survives no failure"
	}
	return "each survives " + figure.Count(tolerance, "failure", "failures")
}

// retentionTable returns the table of how far back each camera group reaches.
func (r report) retentionTable() page.Table {
	return page.Table{
		Title:   "How far back each camera group reaches",
		Intro:   "A full recorder overwrites the oldest footage of all, so the groups that ask for the longest retention fall short first.",
		Columns: []page.Column{{Name: "Held of what is asked for"}},
		Rows: r.rowsOf(func(o study.Outcome) []page.Cell {
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
			return []page.Cell{{List: lines}}
		}, false),
	}
}

// moneyTable returns the table of money and watts.
func (r report) moneyTable() page.Table {
	sums := figure.CurrencyName(r.Site.Currency)
	return page.Table{
		Title: "Money and watts",
		Intro: "In " + sums + ". Purchase is drives, hot spares" + r.licences() + " and recorder. Cost per camera-day is the purchase price divided by cameras times the days that each reaches back. Energy is all drives and the idle recorder, all year. " + r.lifeCostIs(),
		Columns: []page.Column{{Name: "Purchase", Unit: sums}, {Name: "Per usable TB", Unit: sums}, {Name: "Per camera-day kept", Unit: sums},
			{Name: "Drives replaced", Unit: sums + ", over the life"}, {Name: "The same, 95 % of lives", Unit: sums + ", at most"}, {Name: "Power", Unit: "W"}, {Name: "Energy", Unit: "kWh a year"},
			{Name: "Cost of the service life", Unit: sums}},
		Rows: r.rowsOf(r.moneyCells, false),
	}
}

// licences names the licences of cameras among what is bought, where there are any.
func (r report) licences() string {
	for _, o := range r.Outcomes {
		if c := o.Choice.Recorder; c != nil && c.Licences.Cost(r.Site.CameraCount()) > 0 {
			return ", licences of the cameras"
		}
	}
	return ""
}

// lifeCostIs says what makes up the cost of the service life.
func (r report) lifeCostIs() string {
	if !r.Site.EnergyPriced() {
		return "The cost of the service life is the purchase and the drives replaced on average; energy is not in it, as the site file does not price it."
	}
	return fmt.Sprintf("The cost of the service life is the purchase, the drives replaced on average, and the energy at %s a kWh.",
		strings.TrimSuffix(figure.Exact(r.Site.EnergyPrice)+"\u00a0"+r.Site.Currency, "\u00a0"))
}

func (r report) moneyCells(o study.Outcome) []page.Cell {
	z, price := o.Sizing, o.Choice.Drive.Price
	replaced, most := page.UnknownCell(), page.UnknownCell()
	if !math.IsNaN(price) {
		replaced = page.EstimateCell(o.Result.DrivesReplaced.Times(price))
		most = page.CountCell(o.Result.DrivesReplaced95, price)
	}
	perCameraDay := page.Cell{Main: "no cameras given"}
	if r.hasCameras() {
		perCameraDay = page.ExactCell(z.PerCameraDay())
	}
	return []page.Cell{page.MoneyCell(z.Purchase), page.ExactCell(z.PerUsableTB()), perCameraDay, replaced, most,
		page.ExactCell(z.Watts), page.ExactCell(z.EnergyPerYear()), page.SumCell(o.CostOfLife(r.Site).Total())}
}
