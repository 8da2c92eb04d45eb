package print

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/sim/answer"
	"arrayodds/sim/engine"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// Compare writes the answer, the choices, safest first and those that hold less than the
// demand last, and what there is to say of them.
func Compare(w io.Writer, r study.Comparison) error {
	cameras := len(r.Site.Cameras) > 0
	says := answer.Of(r)
	doubtful := r.Doubt != nil && r.Doubt.Settings > 0
	columns := []column{{"choice", 16}, {"chance of loss\nin " + years(r.Site.ServiceLife), 0}}
	if doubtful {
		columns[1].title = "in " + years(r.Site.ServiceLife) + ", in all\nand its spread"
		columns = append(columns, column{"as entered", 0})
	}
	if cameras {
		columns = append(columns, column{"clip\nmissing", 0})
	} else {
		columns = append(columns, column{"usable\nTB", 0})
	}
	if doubtful && cameras { // one column of two lines, to fit a narrow terminal
		columns = append(columns[:2], column{"as entered,\nclip missing", 0})
	}
	priced := slices.ContainsFunc(r.Outcomes, func(o study.Outcome) bool { return !math.IsNaN(o.Sizing.Purchase) })
	if priced {
		columns = append(columns, column{cost(r.Site.Currency), 0})
	}
	var rows [][]string
	var order []study.Outcome
	short := false
	for _, i := range says.Order {
		o := r.Outcomes[i]
		order = append(order, o)
		label := plain(o.Choice.Label)
		switch holds := meets(o.Sizing); {
		case !cameras || holds == yes(true):
		case holds == yes(false):
			label += " *"
			short = true
		default: // of an estimated demand only a part
			label += " (" + holds + ")"
		}
		row := []string{label}
		loss := odds(o.Result.LossChance)
		if doubtful && o.Result.LossChance.Value > 0 {
			loss = typed(says.Choices[i].Entered)
		}
		if len(o.Result.Warnings) > 0 {
			loss = "! " + loss
		}
		if doubtful {
			all := typed(says.Choices[i].InAll)
			if spread := says.Choices[i].Spread; spread != "" {
				all += "\n" + compact(spread)
			}
			row = append(row, all)
		}
		last := terabytes(o.Sizing.Usable)
		if cameras {
			last = typed(answer.Odds(answer.MissingRisk(o)))
		}
		if doubtful && cameras {
			row = append(row, loss+"\n"+last)
		} else {
			row = append(row, loss, last)
		}
		if priced {
			row = append(row, money(o.Sizing.Purchase))
		}
		rows = append(rows, row)
	}
	parts := []string{title(r.Site), layOut(columns, rows)}
	if short {
		parts = append(parts, paragraph("* does not hold the footage for as long as is asked%s.", toGrow(r.Site)))
	}
	if doubtful {
		parts = append(parts, paragraph("In all: over all that is uncertain of the inputs, tried at %s settings; the spread is what 5 %% and 95 %% of them do not exceed. The simulation's own 95 %% intervals are within ±%s %% of the chances as entered.", whole(r.Doubt.Settings), figure.Plain(widest(r.Outcomes))))
	}
	parts = append(parts, section("What to buy", says.Advice)...)
	parts = append(parts, section("Left out", says.LeftOut)...)
	parts = append(parts, section("Redundancy", says.Parities)...)
	parts = append(parts, section("Beaten", says.Beaten)...)
	parts = append(parts, section("Good to know", slices.Concat(says.Idle, says.Notes))...)
	parts = append(parts, estimated(r.Site)...)
	parts = append(parts, shortfalls(r.Site, order)...)
	parts = append(parts, warnings(order, r.Accuracy)...)
	parts = append(parts, paragraph("A simulated chance is an estimate under the site file's assumptions. RAID is no backup."))
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}

// widest returns the widest half-width of a loss chance as entered, in per cent of it.
func widest(outcomes []study.Outcome) float64 {
	most := 0.0
	for _, o := range outcomes {
		if e := o.Result.LossChance; e.Value > 0 {
			most = max(most, 100*figure.Half(e)/e.Value)
		}
	}
	return math.Ceil(most*10) / 10
}

// section returns sentences under a word that says what they are about; nothing where
// there are none.
func section(about string, says []string) (parts []string) {
	for i, s := range says {
		s = plain(s)
		if i == 0 {
			s = about + ": " + s
		}
		parts = append(parts, paragraph("%s", s))
	}
	return parts
}

// title returns the sentence above the tables: what the site asks for.
func title(s array.Site) string {
	if len(s.Cameras) == 0 {
		return paragraph("%s: no cameras given, %s of service", plain(s.Name), years(s.ServiceLife))
	}
	d := s.Demand()
	about := ""
	if s.Estimated() {
		about = "~"
	}
	return paragraph("%s: %s cameras need %s TB%s, written at %s MB/s; %s of service",
		plain(s.Name), whole(s.CameraCount()), about+terabytes(d.Needed), s.GrowthWords(func(tb float64) string { return about + size(tb) }), about+size(d.WriteRate/1e6), years(s.ServiceLife))
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
		if groups == nil {
			notes = append(notes, paragraph("%s falls short: it holds what is due, and has no room to grow as asked for.", plain(o.Choice.Label)))
			continue
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
