package size

import (
	_ "embed" // the files of this folder
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/array/site/rewrite"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/figure"
	"arrayodds/sim/sizing"
)

// contents is what the template is given.
type contents struct {
	page.Page
	Need    page.Table
	Designs []page.Table
	More    []page.Table
	Paste   string // empty: nothing is suggested
}

//go:embed size.html
var text string

var pageTemplate = page.Template(text)

// Write writes the page of a sizing as [page.Write] does.
func Write(w io.Writer, z sizing.Suggestions) error { return page.Write(w, sized{z}.contents()) }

func (z sized) contents() *contents {
	c := &contents{
		Need:    z.needTable(),
		Designs: z.designTables(),
		Page: page.Page{
			Template: pageTemplate(),
			Title:    page.SiteTitle(z.Site.Name),
			Kind:     "what the cameras need",
			Charts:   z.charts(),
			Heading:  "From cameras to drives",
			Lead:     z.lead(),
			Points:   z.points(),
			Notes:    page.OneLines(z.LeftOut),
			Footer:   page.NewFooter(z.cautions(), nil),
		},
	}
	if len(z.Choices) > 0 {
		c.More = []page.Table{z.changesTable(), z.reachTable()}
		c.Paste = rewrite.Choices(z.Choices)
	}
	return c
}

// lead says what the cameras need.
func (z sized) lead() string {
	d := z.Site.Demand()
	text := fmt.Sprintf("%s need %s\u00a0TB%s, written at %s\u00a0MB/s on average.", figure.Count(z.Site.CameraCount(), "camera", "cameras"),
		figure.Exact(d.Needed/array.TB), z.Site.GrowthWords(figure.Exact), figure.Exact(d.WriteRate/1e6))
	if z.Site.Estimated() {
		text += " The bit rates are estimated."
	}
	return text
}

// points says what fits, what costs least, and what else is asked of the recorder.
func (z sized) points() []string {
	var all []string
	if none := z.NoneWords(); none != "" {
		all = append(all, none+z.nearest())
	}
	all = append(all, z.least()...)
	if over := z.overRated(); over != "" {
		all = append(all, over)
	}
	if words := z.WriteLimitWords(); words != "" {
		all = append(all, calm.Replace(words))
	}
	return append(all, calm.Replace(z.NetworkWords()))
}

// calm writes as on a page what a terminal has in capitals.
var calm = strings.NewReplacer(". IT IS", ". It is", "IT IS", "it is", "TOO SLOW", "too slow", "TOO MUCH", "too much")

// nearest says which of the layouts that do not fit would with the least change.
func (z sized) nearest() string {
	best := -1
	for i, s := range z.Short {
		if s.BitRate > 0 && (best < 0 || s.BitRate > z.Short[best].BitRate) {
			best = i
		}
	}
	if best < 0 {
		return ""
	}
	s := z.Short[best]
	bays := figure.Count(s.Bays, "bay", "bays")
	if s.Bays == 0 {
		bays = "no number of bays"
	}
	return fmt.Sprintf(" The most is held by %s, which reaches %s back. Enough would be drives of %s\u00a0TB, or %s, or %s\u00a0%% of the bit rate.",
		s.Layout, figure.Days(s.Sizing.Retention), sizing.EnoughTB(s), bays, sizing.EnoughBitRate(s))
}

// least says, of each number of drives of a group that may fail, what costs least, or
// takes the fewest drives.
func (z sized) least() []string {
	best := map[int]array.Fitting{}
	less := func(a, b array.Fitting) bool {
		x, y := a.Sizing.Purchase, b.Sizing.Purchase
		if x != y && !math.IsNaN(x) && !math.IsNaN(y) {
			return x < y
		}
		return a.Choice.Drives < b.Choice.Drives
	}
	for _, f := range z.Fittings {
		if z.Suggested(f) == 0 {
			continue
		}
		if was, ok := best[f.Sizing.Shape.Tolerance]; !ok || less(f, was) {
			best[f.Sizing.Shape.Tolerance] = f
		}
	}
	var all []string
	for _, n := range slices.Sorted(maps.Keys(best)) {
		f := best[n]
		least, money := "Cheapest", ""
		if math.IsNaN(f.Sizing.Purchase) {
			least = "Fewest drives"
		} else {
			money = ", " + figure.Money(f.Sizing.Purchase, label.OneLine(z.Site.Currency))
		}
		survives := "no failed drive"
		if n > 0 {
			survives = figure.Count(n, "failed drive", "failed drives") + " of a group"
		}
		all = append(all, fmt.Sprintf("%s in a layout that survives %s: %s%s.", least, survives, draw.MarkOf(z.Suggested(f)-1, f.Choice.Label).Brief(), money))
	}
	return all
}

// overRated says which drives are asked for more than they are rated for; empty where
// none is.
func (z sized) overRated() string {
	var names, quoted []string
	for _, f := range z.Fittings {
		if z.Rated(f) > 1 && !slices.Contains(names, f.Drive.Label) {
			names = append(names, f.Drive.Label)
			quoted = append(quoted, "“"+label.OneLine(f.Drive.Label)+"”")
		}
	}
	if names == nil {
		return ""
	}
	return fmt.Sprintf("More is read and written a year than these drives are rated for: %s.", figure.List(quoted))
}

func (z sized) cautions() []string {
	all := []string{z.CountedWords()}
	for _, words := range []string{z.RatingWords(), z.EstimatedWords()} {
		if words != "" {
			all = append(all, words)
		}
	}
	return append(all, "Nothing is simulated here. Layouts that hold as much are not as safe as each other: compare tells the chance of losing footage with each.")
}
