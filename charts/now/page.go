package now

import (
	_ "embed" // the files of this folder
	"fmt"
	"html/template"
	"io"
	"math"
	"strings"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/array/state"
	"arrayodds/array/unit"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/figure"
	now "arrayodds/sim/now"
)

// contents is what the template is given.
type contents struct {
	page.Page
	Night          template.CSS
	Headline       string
	Chance         []string
	Do, Dont       []string
	Curves, Ranked []draw.Chart
	Tables         []page.Table
	Facts          []string
	Situation      *situation // nil where the array is no drill
}

// situation is what a drill begins with.
type situation struct {
	Facts, Asks []string
	File        string
}

var (
	//go:embed now.html
	text string
	//go:embed now.css
	night template.CSS
)

var pageTemplate = page.Template(text)

// Write writes the page as [page.Write] does.
func Write(w io.Writer, r now.Result) error { return page.Write(w, tonight{r}.contents()) }

// WriteDrill writes the page to practise on as [page.Write] does.
func WriteDrill(w io.Writer, d Drill) error { return page.Write(w, d.contents()) }

func (r tonight) contents() *contents {
	curves, ranked := r.curves(), r.ranked()
	notes := append(page.OneLines(r.Says.Notes), r.Warnings...)
	c := &contents{
		Night: night, Headline: r.Says.Headline, Chance: unbroken(r.Says.Chance), Do: unbroken(r.Says.Do), Dont: r.Says.Dont,
		Curves: curves, Ranked: ranked, Tables: r.tables(), Facts: r.facts(),
		Page: page.Page{
			Template: pageTemplate(),
			Title:    page.SiteTitle(r.Site.Name),
			Kind:     "now",
			Charts:   append(append([]draw.Chart{}, curves...), ranked...),
			Inputs:   true,
			Heading:  page.SiteTitle(r.Site.Name) + " · " + label.Short(label.OneLine(r.Choice.Label)),
			Notes:    notes,
			Method:   r.method(),
			Footer:   page.NewFooter(r.cautions(), r.Assumptions),
		},
	}
	return c
}

func (r tonight) method() string {
	if r.Lost() {
		return "Nothing was simulated: what is down decides."
	}
	text := page.Method(r.Seed, r.Accuracy, false) + " Lives begin in the state that was entered."
	if r.Whole.Lives > 0 {
		text += fmt.Sprintf(" When all drives run again comes of %s simulated life by life.", figure.Count(r.Whole.Lives, "life", "lives"))
	}
	return text
}

func (r tonight) cautions() []string {
	own := []string{
		"What to do and what not to do beside the ranking is common practice and has no source. Where it and the maker's manual differ, the manual knows the recorder.",
		"If the array is lost all the same, switch it off and touch nothing: what can still be had is a matter for a specialist, and the first attempt is the best one.",
	}
	return page.Cautions(r.Site, []array.Choice{r.Choice}, own...)
}

// facts are the state in words.
func (r tonight) facts() (facts []string) {
	s := r.State
	add := func(format string, a ...any) { facts = append(facts, fmt.Sprintf(format, a...)) }
	z := r.Sizing.Shape
	add("%s, %s of %s, %s.", label.OneLine(r.Choice.Label), figure.Count(r.Choice.Drives, "drive", "drives"), unit.FormatSize(r.Choice.Drive.Capacity), stands(z.Tolerance, z.Sets*z.GroupsPerSet))
	if !math.IsNaN(s.HourOfWeek) {
		add("It is %s.", state.HourOfWeek(s.HourOfWeek))
	}
	for i, d := range s.Drives {
		switch {
		case d.Rebuilding:
			text := fmt.Sprintf("%s is being rebuilt: %s of it is done", now.Named(s, i), unit.FormatPercent(d.Rebuilt, 2))
			add("%s%s.", text, since(d.DownFor))
		case d.Down:
			add("%s is down%s.", now.Named(s, i), since(d.DownFor))
		case d.Defects > 0:
			add("%s has %s known to be unreadable.", now.Named(s, i), figure.Count(d.Defects, "sector", "sectors"))
		}
	}
	if len(s.Down()) == 0 {
		add("No drive is down.")
	}
	youngest, oldest := math.Inf(1), 0.0
	for _, d := range s.Drives {
		youngest, oldest = math.Min(youngest, d.Age), math.Max(oldest, d.Age)
	}
	if ages := [2]string{age(youngest), age(oldest)}; ages[0] == ages[1] {
		add("The drives are %s old.", ages[0])
	} else {
		add("The drives are %s to %s old.", ages[0], ages[1])
	}
	if r.Choice.HotSpares > 0 {
		add("%d of %s free.", s.Spares, figure.Count(r.Choice.HotSpares, "hot spare is", "hot spares are"))
	}
	if s.Waiting() > 0 {
		switch {
		case math.IsNaN(s.TechnicianIn):
			add("When somebody comes is not known: it was drawn as the site file has it, from now on.")
		case s.DriveIn > 0:
			add("A technician can be there in %s, a drive in %s.", now.Hours(s.TechnicianIn), now.Hours(s.DriveIn))
		default:
			add("A technician can be there in %s, with a drive.", now.Hours(s.TechnicianIn))
		}
	}
	return facts
}

func since(hours float64) string {
	if math.IsNaN(hours) {
		return ""
	}
	return ", for " + now.Hours(hours) + " so far"
}

func age(hours float64) string {
	if hours < unit.HoursPerYear {
		return figure.Days(hours)
	}
	return figure.Years(math.Round(10*hours/unit.HoursPerYear) / 10)
}

func stands(tolerance, groups int) string {
	of := ""
	if groups > 1 {
		of = " in each of its groups"
	}
	switch tolerance {
	case 0:
		return "which stands no failure"
	case 1:
		return "which stands one failure" + of
	}
	return fmt.Sprintf("which stands %d failures%s", tolerance, of)
}

// contents of a drill are those of the answer, behind the situation.
func (d Drill) contents() *contents {
	r := tonight{d.Result}
	c := r.contents()
	c.Kind = "drill"
	c.Situation = &situation{Facts: r.facts(), File: d.File, Asks: []string{
		"How does the array stand? How many more failures does it stand before footage is lost?",
		"What do you do first, and what next? Whom do you call?",
		"What do you not do?",
		"How likely is it, do you think, that footage is lost before all drives run again: 1 in 10, 1 in 100, 1 in 1 000, 1 in 10 000, less?",
		"How long will it take until all drives run again?",
		"The customer asks whether the footage is safe. What do you say?",
	}}
	return c
}

// unbroken returns sentences whose numbers are kept in one line.
func unbroken(sentences []string) (out []string) {
	for _, s := range page.OneLines(sentences) {
		out = append(out, page.Unbroken(strings.ReplaceAll(s, "\u202f", "\u00a0")))
	}
	return out
}
