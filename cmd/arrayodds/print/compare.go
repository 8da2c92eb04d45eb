package print

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"
)

// Compare writes the choices, the least chance of loss first and those that hold
// less than the demand last, with shortfalls and warnings beneath them.
func Compare(w io.Writer, r study.Comparison) error {
	cameras := len(r.Site.Cameras) > 0
	columns := []column{{"choice", 18}, {"usable\nTB", 0}}
	if cameras {
		columns = append(columns, column{"holds\ndays", 0}, column{"meets\ndemand", 0})
	}
	columns = append(columns, column{"chance of loss in\n" + years(r.Site.ServiceLife) + " (95 %)", 0})
	if cameras {
		columns = append(columns, column{"clip missing\n(95 %)", 0})
	}
	priced := slices.ContainsFunc(r.Outcomes, func(o study.Outcome) bool { return !math.IsNaN(o.Sizing.Purchase) })
	if priced {
		columns = append(columns, column{cost(r.Site.Currency), 0})
	}
	var rows [][]string
	order := byLossChance(r.Outcomes)
	for _, o := range order {
		row := []string{plain(o.Choice.Label), terabytes(o.Sizing.Usable)}
		if cameras {
			row = append(row, days(o.Sizing.Retention), meets(o.Sizing))
		}
		loss := odds(o.Result.LossChance)
		if len(o.Result.Warnings) > 0 {
			loss = "! " + loss
		}
		row = append(row, loss)
		if cameras {
			row = append(row, odds(o.Result.MissingClip))
		}
		if priced {
			row = append(row, money(o.Sizing.Purchase))
		}
		rows = append(rows, row)
	}
	parts := []string{title(r.Site), layOut(columns, rows)}
	parts = append(parts, estimated(r.Site)...)
	parts = append(parts, shortfalls(r.Site, order)...)
	parts = append(parts, warnings(order, r.Accuracy)...)
	parts = append(parts, paragraph("A simulated chance is an estimate under the site file's assumptions. RAID is no backup."))
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}

// title returns the sentence above the tables: what the site asks for.
func title(s array.Site) string {
	if len(s.Cameras) == 0 {
		return paragraph("%s: no cameras given, %s of service", plain(s.Name), years(s.ServiceLife))
	}
	count := 0
	for _, c := range s.Cameras {
		count += c.Count
	}
	d := s.Demand()
	about := ""
	if s.Estimated() {
		about = "~"
	}
	return paragraph("%s: %s cameras need %s TB, written at %s MB/s; %s of service",
		plain(s.Name), whole(count), about+terabytes(d.Needed), about+size(d.WriteRate/1e6), years(s.ServiceLife))
}

// byLossChance returns the outcomes sorted as the table shows them; equal ones stay
// in the order of the site file.
func byLossChance(outcomes []study.Outcome) []study.Outcome {
	order := slices.Clone(outcomes)
	slices.SortStableFunc(order, func(a, b study.Outcome) int {
		if a.Sizing.Meets != b.Sizing.Meets {
			if a.Sizing.Meets {
				return -1
			}
			return 1
		}
		if known := a.Result.LossChance.Known(); known != b.Result.LossChance.Known() {
			if known {
				return -1
			}
			return 1
		}
		return cmp.Compare(a.Result.LossChance.Value, b.Result.LossChance.Value)
	})
	return order
}

// shortfalls says, of each choice that does not meet the demand, how much of each
// camera group it holds.
func shortfalls(s array.Site, order []study.Outcome) []string {
	var notes []string
	for _, o := range order {
		if o.Sizing.Meets {
			continue
		}
		var groups []string
		for i, held := range o.Sizing.Held {
			if c := s.Cameras[i]; held < c.Retention {
				groups = append(groups, fmt.Sprintf("%s of %s days of %s", days(held), days(c.Retention), plain(c.Label)))
			}
		}
		notes = append(notes, paragraph("%s falls short: it holds %s.", plain(o.Choice.Label), strings.Join(groups, ", ")))
	}
	return notes
}

// warnings returns the warnings of the results, and a note for each loss chance that
// is less accurate than was asked for.
func warnings(order []study.Outcome, accuracy float64) []string {
	var notes []string
	for _, o := range order {
		for _, text := range o.Result.Warnings {
			notes = append(notes, paragraph("! %s: %s", plain(o.Choice.Label), plain(text)))
		}
		if e := o.Result.LossChance; o.Result.StoppedBy == engine.ByBudget && e.Value > 0 {
			notes = append(notes, paragraph("%s: the budget of trials ended at ±%.2g %%; ±%.2g %% was asked for.",
				plain(o.Choice.Label), 100*(e.High-e.Low)/2/e.Value, 100*accuracy))
		}
	}
	return notes
}
