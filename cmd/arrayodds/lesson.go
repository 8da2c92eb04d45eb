package main

import (
	"slices"

	"arrayodds/array"
	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

func (p program) lessonCommand() *cli.Command {
	return &cli.Command{
		Name:      "lesson",
		Usage:     "questions to predict, then see: a page for learners",
		UsageText: "arrayodds lesson SITE.toml [flags]",
		Description: `Writes a page with three questions on one choice: larger drives, a slower
response, one more drive of parity. Each is to be answered by the reader before the
page shows what the simulation found, and why.

The page goes to the site file's name with -lesson.html (or to --html FILE), the
questions to standard output.

EXAMPLE
   arrayodds lesson terminal.toml --choice "8 x 12 TB, double parity"`,
		Flags: slices.Concat(
			[]cli.Flag{&cli.StringFlag{Name: "choice", Usage: "the choice of this `LABEL`", DefaultText: "the first with redundancy that holds the footage"}},
			outputFlags(study.Lesson{}, sitePageText("lesson")),
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
	asked := study.Request{Source: in.source, Options: a.options(in)}
	switch f := in.file(); {
	case a.IsSet("choice"):
		asked.Choices = []int{a.choiceLabelled("choice", a.String("choice"), in.choices())}
	case f != nil:
		asked.Choices = []int{choiceToTeach(f.Site)}
	}
	outs := p.outputs(a, study.Lesson{}, sitePage(in.path, "lesson"), in.inputs()...)
	if err := a.err(); err != nil {
		return err
	}
	return runAndWrite(a.ctx(), p, outs, asked, study.Teach, print.Lesson)
}

// choiceToTeach returns the place of the choice that a lesson is about where none
// is named: the first that has redundancy and holds the footage; else the first
// with redundancy; else the first.
func choiceToTeach(s array.Site) int {
	best, rank := 0, 0
	for i, c := range s.Choices {
		z, err := s.Size(c)
		if err != nil || !z.Shape.Rebuilds() {
			continue
		}
		r := 1
		if z.Meets {
			r = 2
		}
		if r > rank {
			best, rank = i, r
		}
	}
	return best
}
