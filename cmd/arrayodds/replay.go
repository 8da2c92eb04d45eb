package main

import (
	"context"
	"errors"
	"strings"

	"arrayodds/array"
	"arrayodds/charts/replay"
	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

// replayFormats are the forms in which replay writes what it found.
var replayFormats = []format[study.Replay]{
	{"html", "write the page with the time lines to `FILE`", false, replay.Write},
}

// Lives that are told where --lives says nothing, and at the most.
const livesTold, mostLives = 5, 100

func (p program) replay() *cli.Command {
	flags := []cli.Flag{
		&cli.StringFlag{Name: "choice", Usage: "the choice of this `LABEL`", DefaultText: "the file's, where it has one only"},
		&cli.StringFlag{Name: "lives", Usage: "`NUMBER` of lives to tell", DefaultText: "5"},
		&cli.BoolFlag{Name: "only-losses", Usage: "tell only lives in which footage is lost, as they come among those", DisableDefaultText: true},
	}
	var run []cli.Flag
	for _, f := range runFlags() {
		if name := f.Names()[0]; name != "plain" && name != "workers" { // of no use here
			run = append(run, f)
		}
	}
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

The page goes to the site file's name with -replay.html (or to --html FILE), an
outline to standard output.

EXAMPLE
   arrayodds replay terminal.toml --choice "8 x 12 TB, double parity" --lives 3 --only-losses`,
		Flags:           append(append(flags, formatFlags(replayFormats, "the site file's name with -replay.html; replay.html where that is standard input")...), run...),
		HideHelpCommand: true,
		OnUsageError:    usageError,
		Action:          p.runReplay,
	}
}

func (p program) runReplay(c *cli.Context) error {
	path, faults := siteArgument(c)
	if path == "" {
		return faults
	}
	settings, more := settingsOf(c)
	faults = append(faults, more...)
	lives := livesTold
	if c.IsSet("lives") {
		faults = append(faults, count(c, "lives", 1, mostLives, &lives)...)
	}
	source, _, err := p.open(path)
	if r, ok := errors.AsType[refused](err); ok {
		return append(faults, r...)
	}
	if err != nil {
		return err
	}
	outs := wanted(c, replayFormats, besides(path, "replay"))
	faults = append(faults, misplacedBeside(p, outs, path, source.File())...)
	place, more := toReplay(c, source.File().Site.Choices)
	if faults = append(faults, more...); faults != nil {
		return faults
	}
	a := study.Request{Source: source, Choices: []int{place}, Options: settings.over(source.File().Run)}
	return produce(c.Context, p, outs, a, func(ctx context.Context, a study.Request) (study.Replay, error) {
		return study.TraceLives(ctx, a, lives, c.Bool("only-losses"))
	}, print.Replayed)
}

// toReplay is the place of the choice that is named, or of the only one.
func toReplay(c *cli.Context, all []array.Choice) (int, refused) {
	if c.IsSet("choice") {
		return choiceOf("choice", c.String("choice"), all)
	}
	if len(all) == 1 {
		return 0, nil
	}
	var labels []string
	for _, o := range all {
		labels = append(labels, o.Label)
	}
	return -1, refuse("which of the %d choices? Give one as --choice %s", len(all), strings.Join(quotedAll(labels), ", or "))
}
