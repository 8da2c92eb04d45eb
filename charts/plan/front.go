package plan

import (
	"fmt"
	"html/template"
	"strings"

	"arrayodds/sim/figure"
	"arrayodds/sim/plan"
)

// Sizes of the drawing of the front, in its own units.
const (
	bayWidth, bayHeight = 150, 62
	gap                 = 8
)

// letterOf returns the letter of a batch: A to Z, then AA and so on.
func letterOf(batch int) string {
	if batch > 26 {
		return letterOf((batch-1)/26) + letterOf((batch-1)%26+1)
	}
	return string(rune('A' + batch - 1))
}

// what says in a word or two what goes into a bay.
func what(b plan.Bay, groups int) string {
	switch {
	case b.Spare:
		return "hot spare"
	case !b.Used:
		return "empty"
	case groups == 1:
		return "drive"
	}
	return fmt.Sprintf("group %d", b.Group)
}

// mostDrawn is how many columns a phone still shows so that they can be read.
const mostDrawn = 12

// front draws the front of the recorder, its bays numbered.
func (s sheets) front() template.HTML {
	n := s.Bays.Numbering
	width, height := n.Columns*(bayWidth+gap)+gap, s.Bays.Rows*(bayHeight+gap)+gap
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="front" viewBox="0 0 %d %d" role="img" aria-label="The front of the recorder: %s in %s. The table below lists them." style="min-width: %dpx">`,
		width, height, figure.Count(len(s.Bays.Bays), "bay", "bays"), figure.Count(s.Bays.Rows, "row", "rows"), min(n.Columns, mostDrawn)*66)
	fmt.Fprintf(&b, `<rect class="chassis" x="1" y="1" width="%d" height="%d" rx="6"/>`, width-2, height-2)
	for _, bay := range s.Bays.Bays {
		x, y := gap+bay.Column*(bayWidth+gap), gap+bay.Row*(bayHeight+gap)
		class := "bay"
		switch {
		case bay.Spare:
			class += " spare"
		case !bay.Used:
			class += " empty"
		case bay.Group%2 == 0:
			class += " even"
		}
		fmt.Fprintf(&b, `<g class="%s"><rect x="%d" y="%d" width="%d" height="%d" rx="4"/><text class="number" x="%d" y="%d">%d</text><text x="%d" y="%d">%s</text>`,
			class, x, y, bayWidth, bayHeight, x+10, y+26, bay.Number, x+10, y+51, what(bay, s.Sizing.Shape.Groups()))
		if bay.Used && s.Bays.Batches > 1 {
			fmt.Fprintf(&b, `<text class="batch" x="%d" y="%d">%s</text>`, x+bayWidth-12, y+26, letterOf(bay.Batch))
		}
		b.WriteString("</g>")
	}
	b.WriteString("</svg>")
	return template.HTML(b.String()) // of numbers and this package's own words
}

func (s sheets) legend() (all []string) {
	all = append(all, "Large number: the bay.")
	if s.Bays.Batches > 1 {
		all = append(all, "Letter: the batch that its drive comes from.")
	}
	if s.Choice.HotSpares > 0 {
		all = append(all, "Dashed: a hot spare.")
	}
	return append(all, "Dotted and grey: empty.")
}

// bayRow is one bay with room for the serial number of its drive.
type bayRow struct{ Number, Is, Batch string }

func (s sheets) bayRows() (rows []bayRow) {
	for _, b := range s.Bays.Bays {
		if !b.Used {
			continue
		}
		row := bayRow{Number: fmt.Sprint(b.Number), Is: what(b, s.Sizing.Shape.Groups())}
		if s.Bays.Batches > 1 {
			row.Batch = letterOf(b.Batch)
		}
		rows = append(rows, row)
	}
	return rows
}
