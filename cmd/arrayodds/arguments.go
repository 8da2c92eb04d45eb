package main

import (
	"context"
	"errors"
	"slices"

	"arrayodds/cmd/arrayodds/flags"
	"arrayodds/sim/divide"

	"github.com/urfave/cli/v2"
)

// arguments is what a command was called with, and everything that is wrong with
// it so far. The methods that read a value note what is wrong with it and go on,
// so that a command reads all of them before it stops.
type arguments struct {
	*cli.Context
	read flags.Reader
	errs usageErrors
	near []string // flags that were perhaps meant by such as there are not

	part   *divide.Share  // that is asked for, nil where all is
	ledger *divide.Ledger // of the part, or of all parts that are merged
}

// lineRead is the key under which the library carries to a command what is
// wrong with its arguments before their values are read.
const lineRead = "line read"

// action returns what the library calls to run a command.
func action(run func(*arguments) error) cli.ActionFunc {
	return func(c *cli.Context) error {
		line, _ := c.App.Metadata[lineRead].(commandLine)
		a := &arguments{Context: c, errs: line.errs, near: line.near}
		a.read = flags.Reader{Values: c, Wrong: a.wrong, Fine: func() bool { return len(a.errs) == 0 }}
		if share, ok := a.read.Part(); ok {
			a.part, a.ledger = &share, divide.NewLedger(share)
		}
		return run(a)
	}
}

// ctx returns the context, which is done when the program is interrupted.
func (a *arguments) ctx() context.Context { return a.Context.Context }

// wrong notes one error.
func (a *arguments) wrong(format string, args ...any) {
	a.errs = append(a.errs, usageErrorf(format, args...)...)
}

// meant reports whether a flag was perhaps meant by one that there is not, which is
// noted already: that it lacks is no second error.
func (a *arguments) meant(flag string) bool { return slices.Contains(a.near, flag) }

// note notes an error of the user's, and returns any other.
func (a *arguments) note(err error) error {
	if errs, ok := errors.AsType[usageErrors](err); ok {
		a.errs = append(a.errs, errs...)
		return nil
	}
	return err
}

// err returns everything that was noted, nil where nothing was.
func (a *arguments) err() error {
	if len(a.errs) == 0 {
		return nil
	}
	return a.errs
}

// input returns the one argument that is no flag, the path of a file of this
// kind. It is "" where there is none to read.
func (a *arguments) input(kind string) string {
	switch {
	case a.NArg() == 0:
		a.wrong("no %s given; see %s --help", kind, a.Command.HelpName)
	case a.NArg() == 1 && a.Args().First() == "":
		a.wrong("found %q as the %s; right would be its path, or %q for standard input", "", kind, stdio)
	case a.NArg() > 1:
		a.wrong("one %s at a time, found %q; see %s --help", kind, a.Args().Slice(), a.Command.HelpName)
	default:
		return a.Args().First()
	}
	return ""
}
