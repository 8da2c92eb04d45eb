package charts

import (
	"encoding/json"
	"html/template"
)

// chart is one drawing with the words around it.
type chart struct {
	ID      string
	Title   string
	Options json.RawMessage
	Height  int    // pixels on a wide page
	Print   int    // pixels on paper
	Rows    bool   // labels stand to the left of rows
	Read    string // one sentence: how to read it
	Alt     string // what a reader hears who does not see it
	Notes   []string
	Key     []keyEntry
	Absent  string // why there is no drawing
}

// keyEntry explains a symbol beside the drawing.
type keyEntry struct {
	Drawing template.HTML
	Text    string
}

// choiceKey explains the numbers of the choices.
func (r report) choiceKey() []keyEntry {
	var key []keyEntry
	for _, m := range r.marks() {
		text := m.numbered()
		if m.Hollow {
			text += " (falls short)"
		}
		key = append(key, keyEntry{m.Drawing(), text})
	}
	return key
}

// warningNotes repeats the warnings under a drawing that shows their figures.
func (r report) warningNotes() []string {
	var notes []string
	for i, m := range r.marks() {
		for _, w := range warningsOf(r.Outcomes[i]) {
			notes = append(notes, "Warning for "+m.numbered()+": "+w)
		}
	}
	return notes
}

func (r report) charts() []chart {
	all := []chart{r.lossChart(), r.yearsChart(), r.costChart(), r.causesChart()}
	for i := range all {
		all[i].Print = onPaper(all[i], len(r.Outcomes))
	}
	return all
}

// onPaper is a height that keeps a drawing on one A4 page with its words, two
// to a page where it can be.
func onPaper(c chart, rows int) int {
	if !c.Rows {
		return 270
	}
	const least, most = 26, 780 // pixels a row; pixels a page
	return max(least*rows+90, min(c.Height*5/6, most))
}
