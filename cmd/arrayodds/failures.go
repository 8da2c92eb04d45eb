package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"arrayodds/array/site"

	"github.com/urfave/cli/v2"

	"arrayodds/array/nearest"
)

// Exit statuses.
const (
	done   = 0
	failed = 1
	wrong  = 2 // the input or the command line
)

// refused is what is wrong with what the user gave, all of it, a line each.
type refused []string

func (r refused) Error() string { return strings.Join(r, "\n") }

// refuse is one thing that is wrong with the command line.
func refuse(format string, a ...any) refused {
	return refused{"arrayodds: " + fmt.Sprintf(format, a...)}
}

// siteFaults is what is wrong with a site file, each line beginning with its
// place, so that editors can jump there.
func siteFaults(all site.Errors) refused {
	var out refused
	for _, e := range all {
		out = append(out, e.Error())
	}
	return out
}

// report writes an error to standard error and returns the exit status.
func (p program) report(err error) int {
	if err == nil {
		return done
	}
	if errors.Is(err, context.Canceled) {
		fmt.Fprintln(p.err, "arrayodds: stopped; nothing was written")
		return failed
	}
	if r, ok := errors.AsType[refused](err); ok {
		fmt.Fprintln(p.err, r)
		return wrong
	}
	fmt.Fprintln(p.err, "arrayodds:", err)
	if _, ok := errors.AsType[cli.ExitCoder](err); ok { // the library's own: help for no such thing
		return wrong
	}
	return failed
}

// usageError is called by the library for flags that it cannot read.
func usageError(c *cli.Context, err error, _ bool) error {
	text := err.Error()
	if name, ok := strings.CutPrefix(text, "flag provided but not defined: -"); ok {
		text = fmt.Sprintf("there is no flag --%s%s", name, didYouMean(name, flagNames(c.Command.Flags), "--"))
	}
	return refuse("%s; see %s --help", text, c.Command.HelpName)
}

func unknownCommand(commands []*cli.Command, name string) refused {
	if strings.HasSuffix(name, ".toml") {
		return refuse("%q is no command (did you mean arrayodds compare %s?)", name, name)
	}
	var names []string
	for _, c := range commands {
		names = append(names, c.Name)
	}
	return refuse("there is no command %q%s; see arrayodds --help", name, didYouMean(name, names, ""))
}

func flagNames(flags []cli.Flag) []string {
	names := []string{"help"}
	for _, f := range flags {
		names = append(names, f.Names()...)
	}
	return names
}

// didYouMean is a hint at the nearest of the names, or nothing where none is near.
func didYouMean(written string, names []string, prefix string) string {
	if mean := nearest.Name(written, names); mean != "" {
		return fmt.Sprintf(" (did you mean %s%s?)", prefix, mean)
	}
	return ""
}
