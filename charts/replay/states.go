package replay

import (
	"fmt"
	"html/template"

	"arrayodds/charts/draw"
	"arrayodds/sim/history"
	"arrayodds/sim/trace"
)

// stateLook is how a state is drawn: its renderer's name, its colour and its words.
// Each has a form of its own, so that colour is never the only sign.
type stateLook struct {
	State  trace.State
	Form   string // name of the renderer, and of the picture in the key
	Colour string
	Text   string
}

// Colours of what is drawn beside the states.
const (
	runningColour = draw.Pale
	defectColour  = draw.Gold
	lossColour    = draw.Madder
)

// stateLooks are the states that stand out from running, by their place in time.
var stateLooks = []stateLook{
	{trace.Waiting, "waiting", draw.Orange, "failed, waiting for a drive"},
	{trace.Queued, "queued", draw.Violet, "drive in, its rebuild queued"},
	{trace.Rebuilding, "rebuilding", draw.Teal, "being rebuilt"},
	{trace.Down, "down", draw.Ink, "lost with its footage, not yet started again"},
}

// spanRenderer returns what replay.js draws a stretch of a row by: each item is from, to and
// row.
func spanRenderer(form string) draw.Renderer {
	return draw.Renderer{Name: form, X: []int{0, 1}, Y: []int{2}}
}

// lossRenderer draws a named line over the whole height: each item is time, row and
// number.
var lossRenderer = draw.Renderer{Name: "loss", X: []int{0}, Y: []int{1}}

// stateKey explains the forms.
func (t narrator) stateKey() []draw.KeyEntry {
	key := []draw.KeyEntry{{Drawing: stateDrawing("running", runningColour), Text: "running"}}
	used := map[trace.State]bool{}
	for _, s := range t.Spans {
		used[s.State] = true
	}
	for _, l := range stateLooks {
		if used[l.State] {
			key = append(key, draw.KeyEntry{Drawing: stateDrawing(l.Form, l.Colour), Text: l.Text})
		}
	}
	present, met := false, false
	for _, d := range t.Defects {
		present, met = true, met || d.Met
	}
	if present {
		key = append(key, draw.KeyEntry{Drawing: stateDrawing("defect", defectColour), Text: "latent defect present"})
	}
	if met {
		key = append(key, draw.KeyEntry{Drawing: stateDrawing("met", defectColour), Text: "defect met"})
	}
	if t.meetsSectors() {
		key = append(key, draw.KeyEntry{Drawing: stateDrawing("sector", defectColour), Text: "unreadable sector met in a rebuild"})
	}
	if len(t.losses()) > 0 {
		key = append(key, draw.KeyEntry{Drawing: stateDrawing("loss", lossColour), Text: "footage is lost"})
	}
	return key
}

func (t narrator) meetsSectors() bool {
	for _, e := range t.Events {
		if e.Kind == history.MeetsSector {
			return true
		}
	}
	return false
}

// stateForms are the forms as they stand in the key; %[1]s is the colour. The
// page's script draws the same.
var stateForms = map[string]string{
	"running":    `<rect x="0" y="8" width="30" height="6" fill="%[1]s"/>`,
	"waiting":    `<rect x="1" y="3" width="28" height="16" fill="#fff" stroke="%[1]s" stroke-width="2"/>`,
	"queued":     `<rect x="1" y="3" width="28" height="16" fill="#fff" stroke="%[1]s" stroke-width="2"/><path d="M1 11H29" stroke="%[1]s" stroke-width="2" stroke-dasharray="3 2"/>`,
	"rebuilding": `<rect x="1" y="3" width="28" height="16" fill="#fff" stroke="%[1]s" stroke-width="1"/><path d="M1 19L29 3V19Z" fill="%[1]s"/>`,
	"down":       `<rect x="0" y="2" width="30" height="18" fill="%[1]s"/><path d="M6 2V20M12 2V20M18 2V20M24 2V20" stroke="#fff" stroke-width="1.5"/>`,
	"defect":     `<rect x="0" y="8" width="30" height="6" fill="#b4c1c7"/><rect x="6" y="3" width="18" height="4" fill="%[1]s"/>`,
	"met":        `<path d="M15 3L23 11L15 19L7 11Z" fill="%[1]s"/>`,
	"sector":     `<path d="M8 4L22 18M22 4L8 18" stroke="%[1]s" stroke-width="3"/>`,
	"loss":       `<path d="M15 0V22" stroke="%[1]s" stroke-width="2.5"/>`,
	"failure":    `<path d="M8 3H22L15 17Z" fill="%[1]s"/>`,
}

func stateDrawing(form, colour string) template.HTML {
	return template.HTML(`<svg class="state" viewBox="0 0 30 22" aria-hidden="true">` + fmt.Sprintf(stateForms[form], colour) + `</svg>`)
}
