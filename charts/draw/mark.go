package draw

import (
	"fmt"
	"strconv"

	"arrayodds/array/label"
)

// Mark is how a choice is known throughout the page: a number, a colour and a
// shape. Neither colour nor shape is ever the only sign: the number is always
// beside them. It is hollow where the choice does not meet the demand.
type Mark struct {
	Number int    // from 1
	Label  string // in full, one line
	Symbol
}

// MarkOf returns the mark of what stands at a place, from 0.
func MarkOf(place int, name string) Mark {
	return Mark{
		Number: place + 1,
		Label:  label.OneLine(name),
		Symbol: Symbol{Shape: Shapes[place%len(Shapes)], Colour: Palette[place%len(Palette)]},
	}
}

// Marks returns the mark of each of all, in their order; name returns its label.
func Marks[T any](all []T, name func(T) string) []Mark {
	marks := make([]Mark, len(all))
	for i, x := range all {
		marks[i] = MarkOf(i, name(x))
	}
	return marks
}

// Numbered returns the label after its number.
func (m Mark) Numbered() string { return fmt.Sprintf("%d · %s", m.Number, m.Label) }

// Brief returns the label after its number, cut to what a sentence has room for.
func (m Mark) Brief() string { return fmt.Sprintf("%d · %s", m.Number, label.Short(m.Label)) }

// NumberLabel returns the number as a label beside a point, on a side as
// [NewLabel] takes it.
func (m Mark) NumberLabel(side string) *Label {
	l := NewLabel(strconv.Itoa(m.Number), side, "")
	l.Weight = "bold"
	return l
}
