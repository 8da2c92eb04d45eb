package page

import (
	_ "embed" // the files of this folder
	"html/template"
)

// The projector: a page laid out for 1280 x 720, one question a screen.
var (
	//go:embed projector.html
	projectorParts string
	//go:embed projector.css
	projectorStyle template.CSS
	//go:embed projector.js
	projectorScript template.JS
)

// ProjectorStyle returns the style sheet of the projector, for a page that has the
// part "projector".
func (p *Page) ProjectorStyle() template.CSS { return projectorStyle }

// ProjectorScript returns its script, which goes behind all others.
func (p *Page) ProjectorScript() template.JS { return projectorScript }
