package page

import (
	"cmp"
	"fmt"
	"html/template"
	"math"
	"strings"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// Method says how the figures came about: by which seed, to which relative half-width,
// and whether life by life.
func Method(seed uint64, accuracy float64, plain bool) string {
	how := "Simulated by forced branching"
	if plain {
		how = "Simulated life by life, without branching"
	}
	return fmt.Sprintf("%s, seed %d, to a 95 %% half-width of %s %% of each loss chance or until the budget of trials was used up. The same seed gives the same digits.",
		how, seed, figure.Exact(100*accuracy))
}

// ServiceLife returns the service life of a site in words.
func ServiceLife(s array.Site) string { return figure.Years(s.ServiceLife / unit.HoursPerYear) }

// OddsText returns a chance with its interval, in a line.
func OddsText(e estimate.Estimate) string {
	if math.IsNaN(e.Value) {
		return unknown
	}
	text := figure.Odds(e)
	if e.High > e.Low && e.Value > 0 {
		text += " (" + figure.OddsInterval(e) + ")"
	}
	return Unbroken(text)
}

// OneLines returns texts from a file, each made one line.
func OneLines(texts []string) []string {
	var lines []string
	for _, t := range texts {
		lines = append(lines, label.OneLine(t))
	}
	return lines
}

// Unbroken returns s with a number and its words kept in one line: a table breaks
// between numbers, not within them.
func Unbroken(s string) string { return unbroken.Replace(s) }

var unbroken = strings.NewReplacer(" in ", "\u00a0in\u00a0", " × ", "\u00a0×\u00a0",
	" million", "\u00a0million", " billion", "\u00a0billion", " trillion", "\u00a0trillion")

// PathHTML returns the path of an input, which a line may break behind its dots.
func PathHTML(path string) template.HTML {
	parts := strings.SplitAfter(label.OneLine(path), ".")
	for i, p := range parts {
		parts[i] = template.HTMLEscapeString(p)
	}
	return template.HTML(strings.Join(parts, "<wbr>"))
}

// Called returns what an input is called, or else its path.
func Called(name, path string) string { return label.OneLine(cmp.Or(name, path)) }
