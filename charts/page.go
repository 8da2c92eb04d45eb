package charts

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"regexp"

	"arrayodds/charts/figure"
)

//go:embed page
var pageFiles embed.FS

// scriptFiles holds the chart script where it was put in place before the
// build, and always its README, so that the pattern matches without it.
//
//go:embed script/dist
var scriptFiles embed.FS

const scriptName = "script/dist/echarts.min.js"

// page is what the template is given.
type page struct {
	Report   Report
	Title    string
	Style    template.CSS
	Script   template.JS // empty: not put in place
	Drawing  template.JS // the page's own script
	Options  []chartOptions
	Summary  summary
	Charts   []chart
	Tables   []table
	Compared table
	Policy   table
	Cautions []string
	Method   string

	Assumptions []Assumption
}

// chartOptions is one drawing's data, ready to stand in a script element.
type chartOptions struct {
	ID      string
	Options template.JS
}

var pageTemplate = template.Must(template.New("page.html").ParseFS(pageFiles, "page/page.html"))

// WriteHTML writes the report as one page that needs no network. The same
// report gives the same bytes. Nothing is written where the page cannot be
// made.
func (r Report) WriteHTML(w io.Writer) error {
	return r.write(w, chartScript(scriptFiles))
}

// chartScript reads the chart script, and is empty where there is none.
func chartScript(files fs.FS) []byte {
	script, err := fs.ReadFile(files, scriptName)
	if err != nil {
		return nil
	}
	return script
}

// endOfScript would end the element that a script stands in.
var endOfScript = regexp.MustCompile(`(?i)</(script)`)

func (r Report) write(w io.Writer, script []byte) error {
	style, err := pageFiles.ReadFile("page/page.css")
	if err != nil {
		return err
	}
	drawing, err := pageFiles.ReadFile("page/draw.js")
	if err != nil {
		return err
	}
	name := oneLine(r.Site.Name)
	if name == "" {
		name = "Unnamed site"
	}
	p := page{
		Report:   r,
		Title:    name,
		Style:    template.CSS(style),
		Script:   template.JS(endOfScript.ReplaceAll(script, []byte(`<\/$1`))),
		Drawing:  template.JS(drawing),
		Summary:  r.summarise(),
		Charts:   r.charts(),
		Tables:   r.tables(),
		Compared: r.comparedTable(),
		Policy:   r.policyTable(),
		Cautions: r.Cautions(),
		Method:   r.method(),
	}
	for _, a := range r.Assumptions {
		p.Assumptions = append(p.Assumptions, Assumption{oneLine(a.Path), oneLine(a.Text), a.Default})
	}
	for _, c := range p.Charts {
		if c.Absent == "" {
			p.Options = append(p.Options, chartOptions{c.ID, template.JS(c.Options)})
		}
	}
	var page bytes.Buffer
	if err := pageTemplate.Execute(&page, p); err != nil {
		return fmt.Errorf("making the report: %w", err)
	}
	_, err = page.WriteTo(w)
	return err
}

func (r Report) method() string {
	how := "Simulated by forced branching"
	if r.Plain {
		how = "Simulated life by life, without branching"
	}
	return fmt.Sprintf("%s, seed %d, to a 95 %% half-width of %s %% of each loss chance or until the budget of trials was used up. The same seed gives the same digits.",
		how, r.Seed, figure.Exact(100*r.Accuracy))
}

// Years is the service life in words.
func (p page) Years() string { return years(p.Report.years()) }

// Defaults says whether any assumption was left to the program.
func (p page) Defaults() bool {
	for _, a := range p.Report.Assumptions {
		if a.Default {
			return true
		}
	}
	return false
}
