package page

import (
	"bytes"
	"cmp"
	_ "embed" // the files of this folder
	"fmt"
	"html/template"
	"io"
	"regexp"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
)

// What every page is made of.
var (
	//go:embed parts.html
	parts string
	//go:embed page.css
	style string
	//go:embed draw.js
	drawing string
	//go:embed inputs.js
	inputs string
)

// Layout is what every page has: a title, the style, drawings and the scripts
// that draw them.
type Layout struct {
	Title   string
	Kind    string // of page
	Style   template.CSS
	Script  template.JS // empty: not put in place
	Drawing template.JS // the page's own script
	Charts  []draw.Chart
	Options []chartOptions
}

// chartOptions is one drawing's data, ready to stand in a script element.
type chartOptions struct {
	ID      string
	Options template.JS
}

// Template returns the template of a page from its text, with the parts that pages
// share.
func Template(text string) *template.Template {
	return template.Must(template.Must(template.New("parts").Parse(parts)).New("page").Parse(text))
}

// endOfScript would end the element that a script stands in.
var endOfScript = regexp.MustCompile(`(?i)</(script)`)

// NewLayout returns the layout of a page with its drawings; nameless stands for an
// empty title. A page without the chart script has none drawn and says so.
func NewLayout(title, nameless, kind string, script []byte, charts []draw.Chart) Layout {
	s := Layout{
		Title:   cmp.Or(label.OneLine(title), nameless),
		Kind:    kind,
		Style:   template.CSS(style),
		Script:  template.JS(endOfScript.ReplaceAll(script, []byte(`<\/$1`))),
		Drawing: template.JS(drawing),
		Charts:  charts,
	}
	for _, c := range charts {
		if c.Absent == "" {
			s.Options = append(s.Options, chartOptions{c.ID, template.JS(c.Options)})
		}
	}
	return s
}

// Execute writes a page, and nothing where it cannot be made.
func Execute(w io.Writer, t *template.Template, page any) error {
	var b bytes.Buffer
	if err := t.Execute(&b, page); err != nil {
		return fmt.Errorf("making the page: %w", err)
	}
	_, err := b.WriteTo(w)
	return err
}

// Figures are drawings at one place of the page.
type Figures struct {
	Script bool
	Charts []draw.Chart
}

// WithInputs returns the layout with the renderers of pages about inputs put before
// those of all pages, and with a height on paper for every drawing.
func (s Layout) WithInputs() Layout {
	for i := range s.Charts {
		if s.Charts[i].Print == 0 {
			s.Charts[i].Print = draw.OnPaper(s.Charts[i], 0)
		}
	}
	s.Drawing = template.JS(inputs) + s.Drawing
	return s
}
