package charts

import (
	"bytes"
	"cmp"
	"embed"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"regexp"

	"arrayodds/array/label"
)

//go:embed page
var pageFiles embed.FS

// shell is what every page has: a title, the style, drawings and the scripts
// that draw them.
type shell struct {
	Title   string
	Kind    string // of page
	Style   template.CSS
	Script  template.JS // empty: not put in place
	Drawing template.JS // the page's own script
	Charts  []chart
	Options []chartOptions
}

// chartOptions is one drawing's data, ready to stand in a script element.
type chartOptions struct {
	ID      string
	Options template.JS
}

// pageOf returns the template of a page, of a package's own files, with the parts
// that pages share.
func pageOf(files fs.FS, name string) *template.Template {
	return template.Must(template.Must(template.New(name).ParseFS(pageFiles, "page/parts.html")).ParseFS(files, name))
}

// endOfScript would end the element that a script stands in.
var endOfScript = regexp.MustCompile(`(?i)</(script)`)

// newShell makes the shell of a page; nameless stands for an empty title.
func newShell(title, nameless, kind string, script []byte, charts []chart) (shell, error) {
	style, err := pageFiles.ReadFile("page/page.css")
	if err != nil {
		return shell{}, err
	}
	drawing, err := pageFiles.ReadFile("page/draw.js")
	if err != nil {
		return shell{}, err
	}
	s := shell{
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
	return s, nil
}

// writePageTo writes a page, and nothing where it cannot be made.
func writePageTo(w io.Writer, t *template.Template, page any) error {
	var b bytes.Buffer
	if err := t.Execute(&b, page); err != nil {
		return fmt.Errorf("making the page: %w", err)
	}
	_, err := b.WriteTo(w)
	return err
}
