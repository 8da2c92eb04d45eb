package main

import (
	"context"
	"fmt"
	"slices"

	"arrayodds/cmd/arrayodds/flags"
	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

func (p program) replayCommand() *cli.Command {
	return &cli.Command{
		Name:      "replay",
		Usage:     "single lives of one choice on a time line: what went wrong, hour by hour",
		UsageText: "arrayodds replay SITE.toml --choice LABEL [flags]",
		Description: `Tells single simulated lives of the drives of one choice: drive by drive, what
failed, what was waited for and rebuilt, what footage there was; the same in
words, hour by hour; and one rebuild in slow motion, for drives of other sizes and
other responses.

Lives come as they come, and most of them are quiet. With --only-losses they are
drawn from those in which footage is lost, with the chances that such lives have
among themselves; the page says how rare they are among all.

The page steps through a life, and through the rebuild, as in slow motion: by its
buttons, or once they were used by the space bar, which plays and pauses, and the
left and right arrows. "Projector" lays it out for 1280 x 720, one screen at a
time; FILE.html#projector opens it so. Page Up and Page Down turn the screens, and
Esc leaves it.

The page goes to the site file's name with -replay.html (or to --html FILE), an
outline to standard output.

EXAMPLE
   arrayodds replay terminal.toml --choice "8 x 12 TB, double parity" --lives 3 --only-losses`,
		Flags: slices.Concat(
			[]cli.Flag{
				&cli.StringFlag{Name: "choice", Usage: "the choice of this `LABEL`", DefaultText: "the file's, where it has one only"},
				&cli.StringFlag{Name: "lives", Usage: "`NUMBER` of lives to tell", DefaultText: fmt.Sprint(flags.Lives)},
				&cli.BoolFlag{Name: "only-losses", Usage: "tell only lives in which footage is lost, as they come among those", DisableDefaultText: true},
			},
			outputFlags(study.Replay{}, sitePageText("replay")),
			simulationFlags("seed", "accuracy", "max-trials"),
		),
		Action: action(p.runReplay),
	}
}

func (p program) runReplay(a *arguments) error {
	in, err := p.site(a)
	if err != nil {
		return err
	}
	choice := a.read.OneChoice(in.file())
	lives := a.read.Lives()
	outs := p.outputs(a, study.Replay{}, sitePage(in.path, "replay"), in.inputs()...)
	asked := study.Request{Source: in.source, Choices: []int{choice}, Options: a.read.Options(in.file())}
	if err := a.err(); err != nil {
		return err
	}
	return runAndWrite(a.ctx(), p, outs, asked, func(ctx context.Context, asked study.Request) (study.Replay, error) {
		return study.TraceLives(ctx, asked, lives, a.Bool("only-losses"))
	}, print.Replay)
}
