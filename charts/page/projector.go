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
