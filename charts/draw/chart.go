package draw

import (
	"encoding/json"
	"html/template"
)

// Chart is one drawing with the words around it.
type Chart struct {
	ID      string
	Title   string
	Options json.RawMessage
	Height  int    // pixels on a wide page
	Print   int    // pixels on paper
	Rows    bool   // labels stand to the left of rows
	Read    string // one sentence: how to read it
	Alt     string // what a reader hears who does not see it
	Notes   []string
	Key     []KeyEntry
	Absent  string // why there is no drawing
}

// KeyEntry explains a symbol beside the drawing.
type KeyEntry struct {
	Drawing template.HTML
	Text    string
}

// OnPaper is a height that keeps a drawing on one A4 page with its words, two
// to a page where it can be.
func OnPaper(c Chart, rows int) int {
	if !c.Rows {
		return 270
	}
	const least, most = 26, 780 // pixels a row; pixels a page
	return max(least*rows+90, min(c.Height*5/6, most))
}

// MostSymbols is how many points of a curve get a symbol.
const MostSymbols = 8
