package plan

import (
	_ "embed" // the files of this folder
	"fmt"
	"html/template"
	"io"
	"strings"

	"arrayodds/array/label"
	"arrayodds/array/site"
	"arrayodds/array/unit"
	"arrayodds/charts/page"
	"arrayodds/sim/figure"
	"arrayodds/sim/plan"
)

// contents is what the template is given.
type contents struct {
	page.Page
	Choice   string
	Facts    []fact
	Answer   []string
	Warnings []string

	Parts      []partRow
	Sum        string
	Unpriced   string
	PartFacts  []fact
	PartWords  []string
	Front      template.HTML
	Legend     []string
	BayRows    []bayRow
	BayWords   []string
	MixWords   []string
	PowerFacts []fact
	PowerWords []string
	Topics     []topic
	Checks     []checkRow
	Years      []yearRow
	YearNotes  []string
	YearWords  []string
	Duties     []plan.Duty
	Took       []string
	Signed     string
}

// fact is a name with what belongs to it; empty Text is a line to write on.
type fact struct{ Name, Text, Note string }

type topic struct {
	Name string
	Rows []fact
}

var (
	//go:embed plan.html
	text string
	//go:embed plan.css
	style template.CSS

	pageTemplate = page.Template(text)
)

// Write writes the sheets of a plan as [page.Write] does.
func Write(w io.Writer, p plan.Plan) error { return page.WriteWith(w, sheets{p}.contents(), "") }

// sheets is a plan as its page tells it.
type sheets struct{ plan.Plan }

const longFact = 120 // letters

func (s sheets) contents() *contents {
	c := &contents{
		Page: page.Page{
			Template: pageTemplate(),
			Title:    page.SiteTitle(s.Site.Name),
			Kind:     "plan to build and keep",
			Heading:  "Plan to build and keep",
			Style:    style,
			Lead:     s.lead(),
			Method:   page.Method(s.Seed, s.Accuracy, false),
		},
		Choice:    label.OneLine(s.Choice.Label),
		Facts:     s.facts(),
		Answer:    s.answer(),
		Warnings:  page.OneLines(s.Warnings),
		PartFacts: s.partFacts(), PartWords: glued([]string{s.Plan.Parts.WhyShelf, s.Plan.Parts.Lifting}),
		Front: s.front(), Legend: s.legend(), BayRows: s.bayRows(),
		BayWords: glued(s.Bays.Words), MixWords: glued(s.Bays.MixingWords),
		PowerFacts: s.powerFacts(), PowerWords: glued(s.Power.Words),
		Topics: s.topics(), Checks: s.checks(),
		YearWords: glued(s.Calendar.Words),
		Duties:    s.Calendar.Regular,
		Took:      s.Took,
		Signed:    label.Cut(s.Site.Document.PreparedBy, longFact),
	}
	c.Parts, c.Sum, c.Unpriced = s.parts()
	c.Years, c.YearNotes = s.years()
	c.Footer = page.NewFooter(page.Cautions(s.Site, nil), s.bearing())
	return c
}

func (s sheets) lead() string {
	c := s.Choice
	spares := ""
	if c.HotSpares > 0 {
		spares = " and " + figure.Count(c.HotSpares, "hot spare", "hot spares")
	}
	return fmt.Sprintf("%s as %s%s, for %s of service.", figure.Drives(c.Drives, s.Sizing.Shape.Groups()), c.Layout, spares, page.ServiceLife(s.Site))
}

// facts returns what the document says of itself.
func (s sheets) facts() (all []fact) {
	d := s.Site.Document
	add := func(name, text string) {
		if text != "" {
			all = append(all, fact{Name: name, Text: label.Cut(text, longFact)})
		}
	}
	add("For", d.Customer)
	add("Reference", d.Reference)
	add("Prepared by", d.PreparedBy)
	if !d.ValidUntil.IsZero() {
		add("Valid until", d.ValidUntil.Format("2 January 2006"))
	}
	return all
}

// answer returns what the figures say of the choice, in brief.
func (s sheets) answer() (all []string) {
	r := s.Result
	all = append(all, fmt.Sprintf("Chance of losing footage within %s: %s.", page.ServiceLife(s.Site), page.OddsText(r.LossChance)))
	if g := s.Site.Goal; g != nil {
		met := "It meets the goal of %s as entered."
		switch {
		case r.LossChance.Low > g.LossChance:
			met = "IT MISSES the goal of %s."
		case r.LossChance.High > g.LossChance:
			met = "Its interval straddles the goal of %s."
		}
		all = append(all, fmt.Sprintf(met, figure.Chance(g.LossChance)))
	}
	if r.HasCameras {
		all = append(all, fmt.Sprintf("Chance that a clip asked for is missing: %s.", page.OddsText(r.MissingClip)))
		if !s.Sizing.Meets {
			all = append(all, fmt.Sprintf("IT HOLDS TOO LITTLE: %s of the %s that is asked for.", figure.Days(s.Sizing.Retention), figure.Days(s.Site.Demand().Longest)))
		}
	}
	if s.Sizing.RebuildRun > 0 && s.Choice.Care.Restore == nil {
		all = append(all, fmt.Sprintf("A failed drive is rebuilt in %s.", unit.FormatHours(s.Sizing.RebuildRun)))
	}
	return all
}

// bearing returns the assumptions that bear on the choice: what else could be bought does
// not.
func (s sheets) bearing() (all []site.Assumption) {
	for _, a := range s.Assumptions {
		if !strings.HasPrefix(a.Path, "options.") {
			all = append(all, a)
		}
	}
	return all
}
