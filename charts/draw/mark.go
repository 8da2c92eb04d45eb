package draw

import (
	"fmt"
	"html/template"

	"arrayodds/array/label"
)

// Mark is how a choice is known throughout the page: a number, a colour and a
// shape. Neither colour nor shape is ever the only sign: the number is always
// beside them.
type Mark struct {
	Number int
	Label  string // whole, one line
	Colour string
	Shape  string // a symbol of the chart script
	Hollow bool   // does not meet the demand
}

// Palette keeps apart for the common kinds of colour blindness by lightness as
// well as by hue, and is dark enough for thin lines on paper.
var Palette = []string{
	"#0f5c7a", // deep teal
	"#c2571a", // burnt orange
	"#7a4fa3", // violet
	"#3f8f5b", // leaf
	"#a8324a", // madder
	"#4a6fd0", // cornflower
	"#8a6d14", // olive gold
	"#5b646e", // slate
}

// Shapes are drawn in a box of 20 by 20, the same in the charts and in the key.
var Shapes = []string{
	"M10 2A8 8 0 1 1 9.99 2Z",
	"M3 3H17V17H3Z",
	"M10 1.5L18.5 17H1.5Z",
	"M10 0.5L19 10L10 19.5L1 10Z",
	"M10 18.5L1.5 3H18.5Z",
	"M7 2H13V7H18V13H13V18H7V13H2V7H7Z",
	"M10 1L19 8L15.6 18.5H4.4L1 8Z",
}

// MarkOf is the mark of what stands at a place, from 0.
func MarkOf(place int, name string) Mark {
	return Mark{
		Number: place + 1,
		Label:  label.OneLine(name),
		Colour: Palette[place%len(Palette)],
		Shape:  "path://" + Shapes[place%len(Shapes)],
	}
}

// Drawing is the mark as a small picture for the text.
func (m Mark) Drawing() template.HTML { return Drawing(m.Shape, m.Colour, m.Hollow) }

func Drawing(shape, colour string, hollow bool) template.HTML {
	fill := colour
	if hollow {
		fill = Paper
	}
	return template.HTML(fmt.Sprintf(`<svg class="mark" viewBox="-1 -1 22 22" aria-hidden="true"><path d="%s" fill="%s" stroke="%s" stroke-width="2.4"/></svg>`,
		shape[len("path://"):], fill, colour))
}

// Numbered is the label after its number.
func (m Mark) Numbered() string { return fmt.Sprintf("%d · %s", m.Number, m.Label) }

// Swatch is a square of a colour, with a sign on it where path is given.
func Swatch(colour, path string) template.HTML {
	sign := ""
	if path != "" {
		sign = fmt.Sprintf(`<path d="%s" stroke="%s" stroke-width="1.6" fill="none"/>`, path, Ink)
	}
	return template.HTML(fmt.Sprintf(`<svg class="mark" viewBox="0 0 20 20" aria-hidden="true"><rect x="0.5" y="0.5" width="19" height="19" fill="%s" stroke="%s"/>%s</svg>`, colour, Muted, sign))
}

// Brief is the number and the label, cut.
func (m Mark) Brief() string { return fmt.Sprintf("%d · %s", m.Number, label.Short(m.Label)) }
