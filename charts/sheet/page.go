package sheet

import (
	_ "embed" // the files of this folder
	"encoding/base64"
	"html/template"
	"io"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/answer"
	"arrayodds/sim/study"
)

// contents is what the template is given.
type contents struct {
	page.Page
	Logo     logo
	Facts    []fact
	Question string
	Advice   []string
	Best     *draw.Mark // nil: none is recommended
	Picture  picture
	Pair     []side
	Assumed  assumed
	Cautions []string
	Signed   string // who is to sign; empty: not given
	Small    []string
	Size     string // class of the whole
}

// fact is something that the head of the page says of itself.
type fact struct{ Name, Text string }

// logo is a picture within the page.
type logo struct {
	Source        template.URL // empty: none
	Width, Height int
}

var (
	//go:embed sheet.html
	text string
	//go:embed sheet.css
	style template.CSS

	pageTemplate = page.Template(text)
)

// What there is room for, in letters.
const (
	longTitle = 70
	longFact  = 60
	longName  = 44
)

// Write writes the page of a comparison as [page.Write] does.
func Write(w io.Writer, c study.Comparison) error {
	return page.WriteWith(w, sheet{c, answer.Of(c)}.contents(), "")
}

// sheet is a comparison with its answer.
type sheet struct {
	study.Comparison
	said answer.Answer
}

func (s sheet) contents() *contents {
	c := &contents{
		Page: page.Page{
			Template: pageTemplate(),
			Title:    label.Cut(page.SiteTitle(s.Site.Name), longTitle),
			Kind:     "drives for the recorder",
			Heading:  "Drives for the recorder",
			Style:    style, // not that of other pages
		},
		Logo:     logoOf(s.Site.Document.Logo),
		Facts:    factsOf(s.Site.Document),
		Question: s.said.Question,
		Picture:  s.picture(),
		Pair:     s.pair(),
		Assumed:  s.assumed(),
		Cautions: s.cautions(),
		Signed:   label.Cut(s.Site.Document.PreparedBy, longFact),
		Small:    s.small(),
	}
	for _, text := range s.said.Advice {
		c.Advice = append(c.Advice, glued(text))
	}
	if best := s.said.Recommended; best >= 0 {
		m := s.mark(best)
		c.Best = &m
	}
	c.Size = c.size()
	return c
}

// mark returns the mark of the choice at a place.
func (s sheet) mark(place int) draw.Mark {
	o := s.Outcomes[place]
	m := draw.MarkOf(place, label.Cut(o.Choice.Label, longName))
	m.Hollow = !o.Sizing.Meets
	return m
}

// factsOf returns what a document says of itself; what is not given leaves no hole.
func factsOf(d array.Document) (facts []fact) {
	add := func(name, text string) {
		if text != "" {
			facts = append(facts, fact{name, label.Cut(text, longFact)})
		}
	}
	add("For", d.Customer)
	add("Reference", d.Reference)
	add("Prepared by", d.PreparedBy)
	if !d.ValidUntil.IsZero() {
		add("Valid until", d.ValidUntil.Format("2 January 2006"))
	}
	return facts
}

// logoOf returns a logo as it stands within the page.
func logoOf(l array.Logo) logo {
	if !l.Given() {
		return logo{}
	}
	source := "data:" + l.MediaType + ";base64," + base64.StdEncoding.EncodeToString(l.Bytes)
	return logo{template.URL(source), l.Width, l.Height}
}
