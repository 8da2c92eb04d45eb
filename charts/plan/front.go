package plan

import (
	"fmt"
	"html/template"
	"strings"

	"arrayodds/sim/figure"
	"arrayodds/sim/plan"
)

// Sizes of the drawing of the front, in its own units. Where a row has many bays they
// stand upright, as in chassis that have so many.
const (
	gap       = 8
	mostFlat  = 6 // bays of a row that lie flat
	mostDrawn = 12
)

// bay sizes.
func (s sheets) baySize() (width, height int) {
	if s.Bays.Numbering.Columns > mostFlat {
		return 66, 104
	}
	return 150, 62
}

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

// front draws the front of the recorder, its bays numbered.
func (s sheets) front() template.HTML {
	n := s.Bays.Numbering
	wide, high := s.baySize()
	width, height := n.Columns*(wide+gap)+gap, s.Bays.Rows*(high+gap)+gap
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="front" viewBox="0 0 %d %d" role="img" aria-label="The front of the recorder: %s in %s. The table below lists them." style="min-width: %dpx">`,
		width, height, figure.Count(len(s.Bays.Bays), "bay", "bays"), figure.Count(s.Bays.Rows, "row", "rows"), min(n.Columns, mostDrawn)*wide/2)
	fmt.Fprintf(&b, `<rect class="chassis" x="1" y="1" width="%d" height="%d" rx="6"/>`, width-2, height-2)
	for _, bay := range s.Bays.Bays {
		x, y := gap+bay.Column*(wide+gap), gap+bay.Row*(high+gap)
		fmt.Fprintf(&b, `<g class="%s"><rect x="%d" y="%d" width="%d" height="%d" rx="4"/><text class="number" x="%d" y="%d">%d</text>`, classOf(bay), x, y, wide, high, x+9, y+26, bay.Number)
		is, batchY := what(bay, s.Sizing.Shape.Groups()), y+26
		if n.Columns > mostFlat {
			is, batchY = brief(bay, s.Sizing.Shape.Groups()), y+92
		}
		fmt.Fprintf(&b, `<text x="%d" y="%d">%s</text>`, x+9, y+52, is)
		if bay.Used && s.Bays.Batches > 1 {
			fmt.Fprintf(&b, `<text class="batch" x="%d" y="%d">%s</text>`, x+wide-10, batchY, letterOf(bay.Batch))
		}
		b.WriteString("</g>")
	}
	b.WriteString("</svg>")
	return template.HTML(b.String()) // of numbers and this package's own words
}

// classOf returns the style of a bay.
func classOf(b plan.Bay) string {
	switch {
	case b.Spare:
		return "bay spare"
	case !b.Used:
		return "bay empty"
	case b.Group%2 == 0:
		return "bay even"
	}
	return "bay"
}

// brief is what goes into a bay where there is little room.
func brief(b plan.Bay, groups int) string {
	switch {
	case b.Spare:
		return "spare"
	case b.Used && groups > 1:
		return fmt.Sprintf("g %d", b.Group)
	}
	return ""
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
