package main

import (
	"slices"
	"strconv"
	"strings"

	"arrayodds/array/nearest"

	"github.com/urfave/cli/v2"
)

// commandLine is the arguments of a command as the library reads them.
type commandLine struct {
	args []string // flags first, then "--" and the rest
	errs usageErrors
	near []string // flags that were perhaps meant by such as there are not
}

// arrange puts the flags of a command before its other arguments, since the
// library stops looking for flags at the first of those. "-" is no flag, and
// nothing is one after "--". Where a flag asks for help, it is all that is left:
// the library takes what stands beside it for the name of a command.
//
// It reports, and leaves out, a flag that there is not and a switch with a value
// that is none; it reports a flag that takes one value and is given again.
func arrange(c *cli.Command, args []string) commandLine {
	var line commandLine
	var flags, rest []string
	var unsure []string // values of flags that there are not, or else of the rest
	times := map[cli.Flag]int{}
	for i := 0; i < len(args); i++ {
		arg := args[i]
		next := i+1 < len(args) && !isFlag(c.Flags, args[i+1]) // the next one may be this one's value
		if arg == "--" {
			rest = append(rest, args[i+1:]...)
			break
		}
		if arg == "-" || !strings.HasPrefix(arg, "-") {
			rest = append(rest, arg)
			continue
		}
		if isHelp(arg) {
			return commandLine{args: []string{arg}}
		}
		name, value, hasValue := strings.Cut(strings.TrimLeft(arg, "-"), "=")
		f := flagNamed(c.Flags, name)
		if f == nil {
			line.add("there is no flag --%s%s; see arrayodds %s --help", name, nearest.DidYouMean(name, flagNames(c.Flags), "--"), c.Name)
			line.near = append(line.near, nearest.Name(name, flagNames(c.Flags)))
			if next && !hasValue {
				unsure = append(unsure, args[i+1])
				i++
			}
			continue
		}
		if times[f]++; times[f] == 2 && !repeats(f) {
			line.add("--%s is given more than once; right would be once", f.Names()[0])
		}
		_, isSwitch := f.(*cli.BoolFlag)
		_, notBool := strconv.ParseBool(value)
		switch {
		case isSwitch && hasValue && notBool != nil:
			line.add("--%s: found %q; right would be --%s alone, or --%s=false", name, value, name, name)
		case isSwitch || hasValue:
			flags = append(flags, arg)
		case next:
			flags = append(flags, arg, args[i+1])
			i++
		default: // what reads the value says what it should be
			flags = append(flags, arg+"=")
		}
	}
	if len(rest) == 0 && len(unsure) > 0 {
		rest = unsure[:1]
	}
	line.args = append(append(flags, "--"), rest...)
	return line
}

func (l *commandLine) add(format string, a ...any) {
	l.errs = append(l.errs, usageErrorf(format, a...)...)
}

// repeats reports whether a flag may be given several times.
func repeats(f cli.Flag) bool {
	_, ok := f.(*cli.StringSliceFlag)
	return ok
}

// isHelp reports whether an argument asks for a command's help.
func isHelp(arg string) bool {
	return slices.Contains([]string{"--help", "-help", "-h", "--h"}, arg)
}

// isFlag reports whether an argument is a flag and not the value of the one
// before it, which may begin with a minus sign.
func isFlag(flags []cli.Flag, arg string) bool {
	name, dashed := strings.CutPrefix(arg, "-")
	name, _, _ = strings.Cut(name, "=")
	return dashed && (strings.HasPrefix(name, "-") || isHelp(arg) || flagNamed(flags, name) != nil)
}

// isFlagOf reports whether an argument is this flag.
func isFlagOf(f cli.Flag, arg string) bool {
	name, dashed := strings.CutPrefix(arg, "-")
	return dashed && slices.Contains(f.Names(), strings.TrimPrefix(name, "-"))
}

// flagNamed returns the flag of a name, nil where there is none.
func flagNamed(flags []cli.Flag, name string) cli.Flag {
	for _, f := range flags {
		if slices.Contains(f.Names(), name) {
			return f
		}
	}
	return nil
}

func flagNames(flags []cli.Flag) []string {
	names := []string{"help"}
	for _, f := range flags {
		names = append(names, f.Names()...)
	}
	return names
}
