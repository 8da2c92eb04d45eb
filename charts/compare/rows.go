package compare

import (
	"fmt"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/study"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// rows is an axis of choices, the first on top.
func (r report) rows() opts.YAxis {
	var names []string
	for _, m := range r.marks() {
		name := fmt.Sprintf("%d · %s", m.Number, label.Short(m.Label))
		if m.Hollow {
			name += " (falls short)"
		}
		names = append(names, name)
	}
	labels := draw.TickLabels("")
	labels.Width, labels.Overflow, labels.Interval, labels.FontSize = 270, "break", "0", 13
	labels.Color = draw.Ink
	return opts.YAxis{Type: "category", Inverse: opts.Bool(true), Data: names,
		AxisLabel: labels, SplitLine: draw.GridLines(), AxisLine: draw.AxisLine()}
}

// choiceKey explains the numbers of the choices.
func (r report) choiceKey() []draw.KeyEntry {
	var key []draw.KeyEntry
	for _, m := range r.marks() {
		text := m.Numbered()
		if m.Hollow {
			text += " (falls short)"
		}
		key = append(key, draw.KeyEntry{Drawing: m.Drawing(), Text: text})
	}
	return key
}

// warningNotes repeats the warnings under a drawing that shows their figures.
func (r report) warningNotes() []string {
	var notes []string
	for i, m := range r.marks() {
		for _, w := range warningsOf(r.Outcomes[i]) {
			notes = append(notes, "Warning for "+m.Numbered()+": "+w)
		}
	}
	return notes
}

func (r report) marks() []draw.Mark {
	marks := make([]draw.Mark, len(r.Outcomes))
	for i, o := range r.Outcomes {
		marks[i] = draw.MarkOf(i, o.Choice.Label)
		marks[i].Hollow = !o.Sizing.Meets
	}
	return marks
}

// warningsOf are the result's, each in one line.
func warningsOf(o study.Outcome) []string {
	var lines []string
	for _, w := range o.Result.Warnings {
		lines = append(lines, label.OneLine(w))
	}
	return lines
}

// rowsOf makes a row a choice.
func (r report) rowsOf(cells func(study.Outcome) []page.Cell, warn bool) []page.Row {
	rows := make([]page.Row, len(r.Outcomes))
	for i, m := range r.marks() {
		rows[i] = page.Row{Mark: m, Cells: cells(r.Outcomes[i])}
		if warn {
			rows[i].Warnings = warningsOf(r.Outcomes[i])
		}
	}
	return rows
}
