package sheet

import (
	"fmt"
	"html/template"
	"math"
	"strings"

	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/answer"
	"arrayodds/sim/figure"
)

// side is one of the choices that are set side by side.
type side struct {
	Mark  draw.Mark
	Best  bool
	Icons template.HTML
	Class string // "about 5 of 10 000"
	Rest  string // what that is, and the odds
	Price string
}

func (s sheet) pair() (sides []side) {
	for _, i := range s.said.Compared {
		said := s.said.Choices[i]
		risk := answer.Risk(s.Outcomes[i])
		n := answer.Icons(risk)
		rest := "sites like this lose footage in " + page.ServiceLife(s.Site)
		if risk.High > 0 {
			rest += " (" + said.InAll + ")"
		}
		rest += "."
		if n == 0 && risk.High > 0 {
			rest += " So none is marked."
		}
		sides = append(sides, side{
			Mark: s.mark(i), Best: i == s.said.Recommended, Icons: icons(n),
			Class: figure.Capital(said.Class), Rest: glued(rest), Price: figure.Capital(said.Price) + ".",
		})
	}
	return sides
}

const (
	across = 100 // icons of a row, and rows
	few    = 300 // marked icons that have a ring around them
	// How wide an icon is, of the width from one to the next.
	boldSize, markedSize, plainSize = 0.9, 0.74, 0.52
)

// icons draws the class of reference as a square of as many icons, the first so many of
// them marked. Each row is one dashed line, which keeps it small.
func icons(n int) template.HTML {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="icons" viewBox="-1 -1 %d %d" role="img" aria-label="%s of %s marked">`,
		across+2, across+2, figure.Whole(float64(n)), figure.Whole(answer.Class))
	rows(&b, draw.Pale, plainSize, n, answer.Class)
	if n >= few {
		rows(&b, draw.Ink, markedSize, 0, n)
	} else if n > 0 { // hard to find without a ring around them
		rows(&b, draw.Ink, boldSize, 0, n)
		fmt.Fprintf(&b, `<rect x="-.5" y="-.5" width="%d" height="%d" rx="1" fill="none" stroke="%s" stroke-width=".5"/>`,
			min(n, across)+1, (n+across-1)/across+1, draw.Ink)
	}
	b.WriteString(`</svg>`)
	return template.HTML(b.String())
}

// rows draws icons from one to before another as dashed lines.
func rows(b *strings.Builder, colour string, size float64, from, to int) {
	if from >= to {
		return
	}
	gap := math.Round(100*(1-size)) / 100
	fmt.Fprintf(b, `<path fill="none" stroke="%s" stroke-width="%g" stroke-dasharray="%g %g" d="`, colour, size, size, gap)
	for from < to {
		row, first := from/across, from%across
		n := min(to-from, across-first)
		fmt.Fprintf(b, "M%g %gh%g", float64(first)+gap/2, float64(row)+0.5, float64(n)-gap/2)
		from += n
	}
	b.WriteString(`"/>`)
}
