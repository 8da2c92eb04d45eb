package compare

import (
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/study"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// rowAxis returns an axis of choices, the first on top.
func (r report) rowAxis() opts.YAxis {
	var names []string
	for _, m := range r.marks() {
		names = append(names, m.Brief()+shortfall(m))
	}
	return draw.RowAxis(names)
}

// shortfall returns what is added to the name of a choice that does not meet the demand.
func shortfall(m draw.Mark) string {
	if m.Hollow {
		return " (falls short)"
	}
	return ""
}

// choiceKey explains the numbers of the choices.
func (r report) choiceKey() []draw.KeyEntry {
	var key []draw.KeyEntry
	for _, m := range r.marks() {
		key = append(key, draw.KeyEntry{Drawing: m.Drawing(), Text: m.Numbered() + shortfall(m)})
	}
	return key
}

// warningNotes repeats the warnings under a drawing that shows their figures.
func (r report) warningNotes() []string {
	var notes []string
	for i, m := range r.marks() {
		for _, w := range page.OneLines(r.Outcomes[i].Result.Warnings) {
			notes = append(notes, "Warning for "+m.Numbered()+": "+w)
		}
	}
	return notes
}

func (r report) marks() []draw.Mark {
	marks := make([]draw.Mark, len(r.Outcomes))
	for i, o := range r.Outcomes {
		marks[i] = draw.MarkOf(r.places[i], o.Choice.Label)
		marks[i].Hollow = !o.Sizing.Meets
	}
	return marks
}

// rowsOf makes a row a choice.
func (r report) rowsOf(cells func(study.Outcome) []page.Cell, warn bool) []page.Row {
	rows := make([]page.Row, len(r.Outcomes))
	for i, m := range r.marks() {
		rows[i] = page.Row{Mark: m, Cells: cells(r.Outcomes[i])}
		if warn {
			rows[i].Warnings = page.OneLines(r.Outcomes[i].Result.Warnings)
		}
	}
	return rows
}
