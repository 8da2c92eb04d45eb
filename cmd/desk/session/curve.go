package session

import (
	"context"

	"arrayodds/array/site/axis"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

const (
	curvePoints = 9
	// curveTrials is the trials of a choice at each value: few, as all values share
	// their random streams, so that the line is smooth where its place is rough.
	curveTrials = 128
	// curveWork is what one choice may take at one value.
	curveWork int64 = 4e5
)

// curved is the answer of curve: every choice at values of one input around its present
// one.
type curved struct {
	Path    string  `json:"path"`
	Called  string  `json:"called"` // "response time"
	Unit    string  `json:"unit"`   // of the numbers; "x" for multiples
	Log     bool    `json:"log"`    // to be drawn on a logarithmic scale
	Own     number  `json:"own"`    // the present value, in the unit
	OwnText string  `json:"ownText"`
	Values  []value `json:"values"`
	Curves  []curve `json:"curves"` // of each choice, by place
}

// value is one value of an input.
type value struct {
	Text   string `json:"text"`
	Number number `json:"number"`
}

// curve is one choice over the values.
type curve struct {
	Place  int          `json:"place"`
	Label  string       `json:"label"`
	Moved  bool         `json:"moved"` // the input bears on the choice
	Points []curvePoint `json:"points"`
}

// curvePoint is a choice at one value.
type curvePoint struct {
	Chance chance `json:"chance"`
	Odds   string `json:"odds"`
	Absent string `json:"absent"` // why there is no chance; empty: there is
}

// curve draws the loss chances over one input, coarsely and at once.
func (s *Session) curve(ctx context.Context, r request) (response, error) {
	var args struct {
		siteArgs
		Path   string `json:"path"`
		Points int    `json:"points"`
	}
	if err := r.into(&args); err != nil {
		return response{}, err
	}
	read, err := s.reading(args.Text, r.files, false)
	if err != nil {
		return response{}, err
	}
	if args.Points == 0 {
		args.Points = curvePoints
	}
	around, err := read.source.Around(args.Path, args.Points)
	if err != nil {
		return response{}, err
	}
	asked := read.request()
	asked.Options.Accuracy, asked.Options.MaxTrials, asked.Options.MaxWork, asked.Options.LossOnly = -1, curveTrials, curveWork, true
	found, err := study.Vary(ctx, study.Variation{Request: asked, Axes: []*axis.Axis{around}, Against: -1})
	if err != nil {
		return response{}, err
	}
	in := found.Inputs[0]
	out := curved{Path: in.Path, Called: in.Called, Unit: in.Unit, Log: in.Logarithmic(), Own: number(in.Own), OwnText: in.OwnText}
	for i, text := range in.Texts {
		out.Values = append(out.Values, value{text, number(in.Values[i])})
	}
	for place, c := range found.Curves {
		line := curve{Place: place, Label: c.Choice.Label, Moved: !c.Untouched()}
		for _, p := range c.Points {
			line.Points = append(line.Points, curvePoint{chanceOf(p.Loss), figure.Odds(p.Loss), p.Absent})
		}
		out.Curves = append(out.Curves, line)
	}
	return response{answer: out}, nil
}
