package plan

import (
	"context"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"
)

// Plan is how one choice of a site is built and kept.
type Plan struct {
	Site     array.Site
	Choice   array.Choice
	Sizing   array.Sizing
	Seed     uint64
	Accuracy float64
	Result   sim.Result

	Parts      Parts
	Bays       Bays
	Power      Power
	Settings   []Setting
	Acceptance []Check
	Calendar   Calendar

	Assumptions []site.Assumption
	Took        []string // what the plan took where the file says nothing, in sentences
	Warnings    []string // why the figures should not be trusted
}

// Setting is something to be set, or to be known. Value is empty where the site file does
// not say it: then it is to be filled in.
type Setting struct{ Topic, Name, Value, Note string }

// Make plans the one choice of a request. The error is that of the context, or an
// [engine.BusyError].
func Make(ctx context.Context, asked study.Request) (Plan, error) {
	file := asked.Source.File()
	choice := file.Site.Choices[asked.Choices[0]]
	p := Plan{
		Site: file.Site, Choice: choice, Seed: asked.Options.Seed, Accuracy: asked.Options.Accuracy,
		Assumptions: study.AssumptionsOn(file, choice),
	}
	var err error
	if p.Sizing, err = file.Site.Size(choice); err != nil {
		return p, err
	}
	opt := asked.Options
	opt.Progress = engine.PartOf(asked.Options.Progress, 0, 0.3)
	if p.Result, err = sim.Run(ctx, p.Site, choice, opt); err != nil {
		return p, err
	}
	p.Warnings = p.Result.Warnings
	lives, err := newLives(ctx, p.Site, choice, opt)
	if err != nil {
		return p, err
	}
	p.Parts = p.parts(lives)
	p.Power = p.power()
	opt.Progress = engine.PartOf(asked.Options.Progress, 0.3, 0.6)
	tried, err := p.try(ctx, asked.Source, asked.Choices[0], opt)
	if err != nil {
		return p, err
	}
	p.Bays = p.bays(tried)
	p.Settings = p.settings()
	p.Acceptance = p.acceptance(tried)
	opt.Progress = engine.PartOf(asked.Options.Progress, 0.6, 1)
	if p.Calendar, err = p.calendar(ctx, lives, opt); err != nil {
		return p, err
	}
	p.Took = p.took()
	return p, nil
}

// took says what was taken where the file does not say it.
func (p Plan) took() (all []string) {
	all = append(all,
		"A drive's weight, the power factor, the weight that two people lift, the time to have a drive for the shelf and the life of a battery are common practice, no source, wherever the site file does not give them.")
	if p.Choice.Recorder == nil {
		all = append(all, "The site file has no [recorder]: its price, weight, power and bays are not known.")
	}
	return append(all, "All drives of the choice are of one model, whose figures the site file gives.")
}
