package page

import (
	"bytes"
	"cmp"
	_ "embed" // the files of this folder
	"fmt"
	"html/template"
	"io"
	"sync"

	"arrayodds/array/pattern"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/script"
)

// What every page is made of.
var (
	//go:embed parts.html
	parts string
	//go:embed page.css
	style template.CSS
	//go:embed draw.js
	drawScript template.JS
	//go:embed inputs.js
	inputsScript template.JS
	//go:embed keys.js
	keysScript template.JS
)

// Page is what every page has. What a page's template is given embeds it.
type Page struct {
	Template *template.Template
	Title    string // a label from a file; where that is empty, what stands for it
	Kind     string // of page, beside the title
	Charts   []draw.Chart
	Inputs   bool         // draws with the renderers of inputs.js
	Style    template.CSS // the style sheet; empty: that of every page

	Heading string
	Lead    string   // one sentence below the title
	Points  []string // the short answer, a sentence or two each
	Notes   []string
	Method  string // how the figures came about
	Footer

	Script template.JS // that draws the charts; empty: not put in place
}

// Contents is what the template of a page is given: a pointer to a struct that embeds
// a [Page].
type Contents interface{ page() *Page }

func (p *Page) page() *Page { return p }

// Write writes a page that needs no network, and nothing where it cannot be made. The
// same contents give the same bytes.
func Write(w io.Writer, c Contents) error { return WriteWith(w, c, script.Charts()) }

// WriteWith writes a page as [Write] does, with that chart script. Without one, which
// is empty, no chart is drawn and the page says so.
func WriteWith(w io.Writer, c Contents, chartScript string) error {
	p := c.page()
	p.Script = template.JS(insideElement(chartScript))
	b, whole := w.(*bytes.Buffer) // into which a page is written without another copy of it
	if !whole {
		b = new(bytes.Buffer)
	}
	before := b.Len()
	if chartScript != "" {
		b.Grow(len(chartScript) + rest)
	}
	if err := p.Template.Execute(b, c); err != nil {
		b.Truncate(before)
		return fmt.Errorf("making the page: %w", err)
	}
	if whole {
		return nil
	}
	_, err := b.WriteTo(w)
	return err
}

// insideElement returns a script in which what would end the element that it stands in
// is escaped.
func insideElement(script string) string {
	if !endOfScript().MatchString(script) {
		return script
	}
	return endOfScript().ReplaceAllString(script, `<\/$1`)
}

// rest is about as much as a page of charts has beside the chart script, in bytes.
const rest = 512 << 10

var endOfScript = pattern.Of(`(?i)</(script)`)

// Template returns what gives the template of a page, with the parts that pages
// share. The text is parsed when the first page is made, as most commands make no
// page of most kinds; that panics where the text is no template.
func Template(text string) func() *template.Template {
	return sync.OnceValue(func() *template.Template {
		return template.Must(template.Must(template.New("parts").Funcs(functions).Parse(parts + projectorParts)).New("page").Parse(text))
	})
}

// SiteTitle returns the title of a page on a site of that name.
func SiteTitle(name string) string { return cmp.Or(label.OneLine(name), "Unnamed site") }

// functions are what templates may call. They call no method: a linker that meets
// one which does has to keep the methods of every type.
var functions = template.FuncMap{
	"style":           func(c Contents) template.CSS { return cmp.Or(c.page().Style, style) },
	"renderers":       renderers,
	"options":         options,
	"drawings":        drawings,
	"paperHeight":     draw.Chart.PaperHeight,
	"symbol":          draw.Mark.Drawing,
	"breakable":       PathHTML,
	"projectorStyle":  func() template.CSS { return projectorStyle },
	"projectorScript": func() template.JS { return projectorScript },
}

// renderers returns the scripts that draw and that take keys, behind the chart script.
func renderers(c Contents) template.JS {
	if c.page().Inputs {
		return inputsScript + drawScript + keysScript
	}
	return drawScript + keysScript
}

// Drawings are charts at one place of the page.
type Drawings struct {
	Script bool // is in place
	Charts []draw.Chart
}

// drawings returns some of the charts of a page, for the part of that name.
func drawings(c Contents, charts []draw.Chart) Drawings {
	return Drawings{Script: c.page().Script != "", Charts: charts}
}

// Options are the data of one drawing, ready to stand in a script element.
type Options struct {
	ID   string
	Data template.JS
}

// options returns the data of all drawings that there are.
func options(of Contents) []Options {
	var all []Options
	for _, c := range of.page().Charts {
		if c.Absent == "" {
			all = append(all, Options{c.ID, template.JS(c.Options)})
		}
	}
	return all
}
