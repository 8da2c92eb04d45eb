package main

import (
	"context"
	"slices"

	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/study"
	"arrayodds/sim/teach"

	"github.com/urfave/cli/v2"
)

func (p program) lessonCommand() *cli.Command {
	return &cli.Command{
		Name:      "lesson",
		Usage:     "questions to predict, then see: a page for learners",
		UsageText: "arrayodds lesson SITE.toml [flags]",
		Description: `Writes a page with three questions on one choice: larger drives, a slower
response, one more drive of parity. Each is to be answered by the reader before the
page shows what the simulation found, and why. --question asks more of it, each
once:

   scrub    no scrubbing any more (or, where nobody scrubs, once a week)
   batch    a delivery of drives that share their fate
   groups   wider groups (or narrower ones, where there is but one group)
   layout   mirrors in place of parity, or the other way about

On paper the questions come first, with room for predictions, and the answers on
pages of their own; --without-answers leaves the answers out altogether, and they
are not in the file either. On the screen "Projector" lays the page out for
1280 x 720, one question a screen; FILE.html#projector opens it so. Page Up and
Page Down, or the arrows, turn the screens, and Esc leaves it.

The page goes to the site file's name with -lesson.html (or to --html FILE), the
questions to standard output.

EXAMPLE
   arrayodds lesson terminal.toml --choice "8 x 12 TB, double parity" --question groups`,
		Flags: slices.Concat(
			[]cli.Flag{&cli.StringFlag{Name: "choice", Usage: "the choice of this `LABEL`", DefaultText: "the first with redundancy that holds the footage"},
				&cli.StringSliceFlag{Name: "question", Usage: "ask this too, by its `NAME` above; may be given several times"},
				&cli.BoolFlag{Name: "without-answers", Usage: "leave the answers out of the page: a sheet to hand out", DisableDefaultText: true},
			},
			outputFlags(teach.Lesson{}, sitePageText("lesson")),
			simulationFlags("seed", "accuracy", "max-trials", "workers"),
		),
		Action: action(p.runLesson),
	}
}

func (p program) runLesson(a *arguments) error {
	in, err := p.site(a)
	if err != nil {
		return err
	}
	asked := study.Request{Source: in.source, Options: a.read.Options(in.file())}
	asked.Choices = []int{a.read.ChoiceToTeach(in.file())}
	more := a.read.Questions()
	outs := p.outputs(a, teach.Lesson{}, sitePage(in.path, "lesson"), in.inputs()...)
	if err := a.err(); err != nil {
		return err
	}
	return runAndWrite(a.ctx(), p, outs, asked, func(ctx context.Context, asked study.Request) (teach.Lesson, error) {
		if a.Bool("without-answers") {
			return teach.Ask(asked, more...)
		}
		return teach.Run(ctx, asked, more...)
	}, print.Lesson)
}
