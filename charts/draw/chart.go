package draw

import (
	"encoding/json"
	"html/template"
)

// Chart is one drawing with the words around it.
type Chart struct {
	ID      string // within its page
	Title   string
	Options json.RawMessage // as [Options] returns them
	Height  int             // pixels on a wide page
	Print   int             // pixels on paper; 0: as [Chart.PaperHeight] has it
	Rows    int             // rows whose names stand to their left; 0: it has none
	Read    string          // one sentence: how to read it
	Alt     string          // what a reader hears who does not see it
	Notes   []string
	Key     []KeyEntry
	Absent  string // why there is no drawing; empty: there is one
}

// KeyEntry explains a symbol beside the drawing.
type KeyEntry struct {
	Drawing template.HTML
	Text    string
}

// PaperHeight returns the pixels that the drawing gets on paper: a height that keeps
// it on one A4 page with its words, two to a page where it can be.
func (c Chart) PaperHeight() int {
	const row, room = 26, 90 // pixels; room is that of the axis below the rows
	switch {
	case c.Print > 0:
		return c.Print
	case c.Rows == 0:
		return 270
	}
	return RowsOnPaper(c.Height, row*c.Rows+room)
}

// RowsOnPaper returns the height on paper of a drawing of rows that is so high on a
// wide page and wants at least so many pixels.
func RowsOnPaper(height, least int) int {
	const most = 780 // pixels of a page
	return max(least, min(height*5/6, most))
}
