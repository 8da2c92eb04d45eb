package main

import (
	"context"
	"io"
	"runtime/debug"
	"slices"

	"arrayodds/charts/script"
	"arrayodds/cmd/arrayodds/console"
	"arrayodds/cmd/arrayodds/desk"
	"arrayodds/cmd/arrayodds/version"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

// program is what the commands share: where they read and write, and what simulates
// a choice.
type program struct {
	in       io.Reader
	out, err io.Writer
	simulate study.Simulator // of compare
}

// versionFlag asks for the version. It is no flag of the library's, which has room for
// one line.
func versionFlag() cli.Flag {
	return &cli.BoolFlag{Name: "version", Aliases: []string{"v"}, Usage: "print the version, the commit and the versions of what is in the program", DisableDefaultText: true}
}

// execute runs the command that the arguments name, of a program whose
// streams are of type [console.Writer].
func (p program) execute(ctx context.Context, args []string) error {
	app := p.app()
	if len(args) > 1 {
		if isFlagOf(versionFlag(), args[1]) { // whatever stands behind it
			return p.writeVersion()
		}
		if c := app.Command(args[1]); c != nil {
			line := arrange(c, args[2:])
			args = slices.Concat(args[:2], line.args)
			app.Metadata = map[string]any{lineRead: line}
		}
	}
	if err := app.RunContext(ctx, args); err != nil {
		return err
	}
	return p.out.(*console.Writer).Err() // the library prints help and does not look whether it could
}

func (p program) app() *cli.App {
	return &cli.App{
		Name:      "arrayodds",
		Usage:     "what a choice of drives risks for the footage recorded on it",
		UsageText: "arrayodds COMMAND SITE.toml [flags]",
		Description: `Simulates the lives of the drives that a site could buy for its cameras, and
tells the chance of losing footage, with its uncertainty, the cost and the
reasons. The site is one TOML file; "-" is standard input or output.

Exit status: 0 done, 1 failed or stopped (Ctrl-C), 2 the site file or the command line is wrong.

EXAMPLE
   arrayodds compare terminal.toml`,
		Commands:  p.commands(),
		Flags:     []cli.Flag{cli.HelpFlag, versionFlag()}, // which the library adds only beside a help command of its own
		Reader:    p.in,
		Writer:    p.out,
		ErrWriter: p.err,
		Action: func(c *cli.Context) error {
			if !c.Args().Present() {
				return usageErrorf("no command given; see arrayodds --help")
			}
			return unknownCommand(c.App.Commands, c.Args().First())
		},
		OnUsageError: flagError,
		// Labels have commas in them: a flag that may stand several times is given
		// several times.
		DisableSliceFlagSeparator: true,
		ExitErrHandler:            func(*cli.Context, error) {}, // exitStatus chooses the status
	}
}

// commands lists the commands in the order of the help.
func (p program) commands() []*cli.Command {
	all := []*cli.Command{
		p.newCommand(),
		p.compareCommand(), p.chooseCommand(),
		p.sizeCommand(),
		p.checkCommand(),
		p.varyCommand(),
		p.rankCommand(),
		p.replayCommand(),
		p.planCommand(),
		p.nowCommand(),
		p.lessonCommand(),
		p.fitCommand(),
		p.mergeCommand(),
		p.deskCommand(),
		p.helpCommand(),
		p.licencesCommand(),
		p.completionCommand(),
		p.manCommand(),
	}
	for _, c := range all {
		c.HideHelpCommand = true
	}
	return all
}

// thisBuild returns what the program knows of how it was built.
func thisBuild() version.Build {
	info, _ := debug.ReadBuildInfo() // nil where there is none
	return version.Of(info)
}

// writeVersion writes what the program is made of, which --version asks for.
func (p program) writeVersion() error {
	b := thisBuild()
	b.Engine = desk.EngineVersion()
	if packages, err := script.Packages(); err == nil && script.InPlace() {
		b.Charts = packages[0].Name + " " + packages[0].Version
	}
	return b.Write(p.out)
}
