package replay

import (
	_ "embed" // the files of this folder
	"fmt"
	"html/template"
	"io"
	"math"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// contents is what the template is given.
type contents struct {
	page.Page
	Rare          []string // what such lives are among all
	Warnings      []string
	Lives         []lifeContents
	RebuildIntro  string
	Rebuild       *rebuild // nil: nothing is rebuilt
	RebuildCharts []draw.Chart
	Own           template.JS // the page's own script
	Motions       []motion    // of the lives that the player steps through
	States        []letterKey
}

// lifeContents is one life with its drawings and its narrative.
type lifeContents struct {
	Number  int
	Tally   string
	Charts  []draw.Chart
	Motion  bool // the page's player steps through it
	Last    int  // the place of its last event
	First   motionEvent
	Undrawn string // why it has no drawings; empty: it has
	Parts   []narrativePart
}

// mostDrawn is how many lives are drawn; the others are told in words alone.
const mostDrawn = 30

// The page's own files.
var (
	//go:embed replay.html
	text string
	//go:embed replay.js
	own template.JS
	//go:embed player.js
	player template.JS
)

var pageTemplate = page.Template(text)

// Write writes the page of single lives as [page.Write] does.
func Write(w io.Writer, r study.Replay) error { return page.Write(w, lives{r}.contents()) }

func (r lives) contents() *contents {
	all, perLife := r.charts()
	c := &contents{
		Page: page.Page{
			Template: pageTemplate(),
			Title:    page.SiteTitle(r.Site.Name),
			Kind:     "single lives",
			Charts:   all,
			Lead:     r.lead(),
			Method:   fmt.Sprintf("Simulated with seed %d. The same seed gives the same lives.", r.Seed),
			Footer:   r.footer(),
		},
		Rare:          r.rare(),
		Warnings:      page.OneLines(r.Warnings),
		RebuildIntro:  r.rebuildIntro(),
		Rebuild:       r.rebuild(),
		RebuildCharts: r.rebuildCharts(),
		Own:           own + player,
		States:        letters(),
	}
	for i, n := range r.narrators() {
		life := lifeContents{Number: n.Number, Tally: n.tally(), Parts: n.parts()}
		if i < len(perLife) {
			life.Charts = perLife[i]
		} else {
			life.Undrawn = fmt.Sprintf("Not drawn: a page has room for the drawings of %d lives.", mostDrawn)
		}
		if m, ok := n.motion(n.marks(life.Charts)); ok {
			life.Motion, life.Last, life.First = true, len(m.Events)-1, m.Events[0]
			c.Motions = append(c.Motions, m)
		}
		c.Lives = append(c.Lives, life)
	}
	return c
}

// charts returns every drawing of the page, and those of each life that is drawn.
func (r lives) charts() (all []draw.Chart, perLife [][]draw.Chart) {
	for i, t := range r.narrators() {
		if i == mostDrawn {
			break
		}
		of := t.charts()
		perLife = append(perLife, of)
		all = append(all, of...)
	}
	return append(all, r.rebuildCharts()...), perLife
}

// charts returns the drawings of a life.
func (t narrator) charts() []draw.Chart {
	return []draw.Chart{t.lifeChart(), t.closeChart(), t.heldChart()}
}

// label returns the choice's, in one line.
func (r lives) label() string { return label.OneLine(r.Choice.Label) }

func (r lives) lead() string {
	what := "as they come: drawn blindly, none picked"
	if r.OnlyLosses {
		what = "drawn from those in which footage is lost"
	}
	if len(r.Lives) == 1 {
		if r.OnlyLosses {
			return fmt.Sprintf("One simulated life of %s of %s, drawn from those in which footage is lost.", page.ServiceLife(r.Site), r.label())
		}
		return fmt.Sprintf("One simulated life of %s of %s, as it comes: drawn blindly, not picked.", page.ServiceLife(r.Site), r.label())
	}
	return fmt.Sprintf("%s simulated lives of %s of %s, %s.", figure.Whole(float64(len(r.Lives))), page.ServiceLife(r.Site), r.label(), what)
}

// rare says how often such lives come.
func (r lives) rare() []string {
	e := r.Loss
	if math.IsNaN(e.Value) {
		return []string{"How rare such lives are is not known."}
	}
	interval := ""
	if e.High > e.Low {
		interval = fmt.Sprintf(" (95 %% interval: %s)", figure.OddsInterval(e))
	}
	odds := figure.Odds(e)
	switch {
	case e.Value == 0:
		odds = figure.Capital(odds) + ": of all lives of " + page.ServiceLife(r.Site) + " simulated, none lost footage" + interval + "."
	case r.OnlyLosses:
		odds = fmt.Sprintf("Footage is lost in %s lives of %s%s.%s", odds, page.ServiceLife(r.Site), interval, r.others())
	default:
		odds = fmt.Sprintf("Footage is lost in %s such lives of %s%s, and whether it is in those shown here is chance.", odds, page.ServiceLife(r.Site), interval)
	}
	return []string{odds, "A life is one story out of many: do not read frequencies off it."}
}

// others returns how many lives stand behind one that is shown.
func (r lives) others() string {
	e := r.Loss
	if e.Value >= 0.5 {
		return ""
	}
	if e.Value >= 0.1 {
		return fmt.Sprintf(" The other %s of 100 are not shown.", figure.Whole(100-math.Round(100*e.Value)))
	}
	n := 1 / e.Value
	if n >= 1e6 {
		return " The others, in which none is lost, are not shown."
	}
	// To the digits of the odds.
	unit := math.Pow(10, float64(max(0, figure.Place(n, figure.Half(e)/e.Value*n))))
	return fmt.Sprintf(" The other %s, in which none is lost, are not shown.", figure.Whole(math.Round(n/unit)*unit-1))
}

func (r lives) rebuildIntro() string {
	if !r.rebuilds() {
		return "Nothing is rebuilt in this layout: it has no redundancy to rebuild from. A drive that fails takes its footage with it."
	}
	return fmt.Sprintf("One outage at its most delicate: a group of %s (%s) with no redundancy left, of which one drive has just failed, is waited for and rebuilt. Move the size of the drives and the wait, and see what the hours do.",
		figure.Count(r.Sizing.Shape.DrivesInGroup, "drive", "drives"), r.Choice.Layout)
}

func (r lives) footer() page.Footer {
	return page.NewFooter(page.Cautions(r.Site, []array.Choice{r.Choice}, "A life is one story out of many: do not read frequencies off it. How often such things happen is in the chances above and in the report of compare."), r.Assumptions)
}
