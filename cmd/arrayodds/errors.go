package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"arrayodds/array/nearest"
	"arrayodds/array/site"
	"arrayodds/sim/choose"
	"arrayodds/sim/divide"
	"arrayodds/sim/engine"
	"arrayodds/sim/fleet"
	"arrayodds/sim/study"
	"arrayodds/sim/sweep"
	"arrayodds/sim/trace"

	"github.com/urfave/cli/v2"
)

// Exit statuses.
const (
	exitOK     = 0
	exitFailed = 1
	exitUsage  = 2 // the input or the command line is wrong
)

// usageErrors is everything that is wrong with what the user gave, a line each.
type usageErrors []string

// Error returns one line for each error.
func (e usageErrors) Error() string { return strings.Join(e, "\n") }

// usageErrorf returns one error about the command line.
func usageErrorf(format string, a ...any) usageErrors {
	return usageErrors{"arrayodds: " + fmt.Sprintf(format, a...)}
}

// siteErrors returns what is wrong with a site file. Each line begins with its
// place, so that editors can jump there.
func siteErrors(all site.Errors) usageErrors {
	var out usageErrors
	for _, e := range all {
		if e.File == "" && e.Line == 0 { // a setting, where no editor can jump
			out = append(out, usageErrorf("%v", e)...)
			continue
		}
		out = append(out, e.Error())
	}
	return out
}

// asUsageError returns err as [usageErrors] where the input is to blame for it,
// and as it is where it is not.
func asUsageError(err error) error {
	if errs, ok := errors.AsType[site.Errors](err); ok {
		return siteErrors(errs)
	}
	if much, ok := errors.AsType[*study.LimitError](err); ok {
		return usageErrorf("%v", much)
	}
	if none, ok := errors.AsType[choose.NothingError](err); ok {
		return usageErrorf("%v", none)
	}
	if busy, ok := errors.AsType[study.BusyErrors](err); ok {
		return usageErrors{busy.Error()}
	}
	if busy, ok := errors.AsType[*engine.BusyError](err); ok {
		return usageErrors{busy.Error()}
	}
	if long, ok := errors.AsType[*trace.LongLifeError](err); ok {
		return usageErrors{long.Error()}
	}
	if errs, ok := errors.AsType[fleet.ArrayErrors](err); ok {
		return usageErrors(strings.Split(errs.Error(), "\n"))
	}
	if many, ok := errors.AsType[*sweep.TooManyError](err); ok {
		return usageErrorf("--part: %v", many)
	}
	if unfit, ok := errors.AsType[*divide.UnfitError](err); ok {
		return usageErrorf("the parts do not fit together: %v", unfit)
	}
	if errors.Is(err, trace.ErrNoLoss) {
		return usageErrorf("%v; right would be --only-losses for a choice that can lose footage, or more trials", err)
	}
	return err
}

// report writes an error to standard error.
func (p program) report(err error) {
	if err == nil {
		return
	}
	if errors.Is(err, context.Canceled) {
		fmt.Fprintln(p.err, "arrayodds: stopped; nothing was written")
		return
	}
	if errs, ok := errors.AsType[usageErrors](err); ok {
		fmt.Fprintln(p.err, errs)
		return
	}
	fmt.Fprintln(p.err, "arrayodds:", err)
}

// exitStatus returns the status to exit with after an error.
func exitStatus(err error) int {
	if err == nil {
		return exitOK
	}
	if errors.Is(err, context.Canceled) {
		return exitFailed
	}
	if _, ok := errors.AsType[usageErrors](err); ok {
		return exitUsage
	}
	if _, ok := errors.AsType[cli.ExitCoder](err); ok { // the library's own: help for no such thing
		return exitUsage
	}
	return exitFailed
}

// flagError is called by the library for flags that stand before any command.
func flagError(_ *cli.Context, err error, _ bool) error {
	text := err.Error()
	if name, ok := strings.CutPrefix(text, "flag provided but not defined: -"); ok {
		text = fmt.Sprintf("there is no flag --%s before a command", name)
	}
	return usageErrorf("%s; see arrayodds --help", text)
}

func unknownCommand(commands []*cli.Command, name string) usageErrors {
	if strings.HasSuffix(name, ".toml") {
		return usageErrorf("%q is no command (did you mean arrayodds compare %s?)", name, name)
	}
	var names []string
	for _, c := range commands {
		names = append(names, c.Name)
	}
	return usageErrorf("there is no command %q%s; see arrayodds --help", name, nearest.DidYouMean(name, names, ""))
}
