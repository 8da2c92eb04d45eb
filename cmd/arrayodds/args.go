package main

import (
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// commandLine is a command's arguments as the library reads them.
type commandLine struct {
	args []string // flags first, then "--" and the rest
	errs refused
}

// arrange puts the flags of a command before the other arguments, since the
// library stops looking for flags at the first of those. "-" is no flag, and
// nothing is one after "--". Where a flag asks for help, it is all that is left:
// the library takes what stands beside it for the name of a command. A flag that
// takes one value is reported where it is given again.
func arrange(flags []cli.Flag, args []string) commandLine {
	var line commandLine
	var first, rest []string
	times := map[cli.Flag]int{}
	for i := 0; i < len(args); i++ {
		arg := args[i]
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
		f := flagNamed(flags, arg)
		if times[f]++; f != nil && times[f] == 2 && !repeats(f) {
			line.errs = append(line.errs, refuse("--%s is given more than once; right would be once", f.Names()[0])...)
		}
		switch {
		case !takesValue(flags, arg):
			first = append(first, arg)
		case i+1 < len(args) && !isFlag(flags, args[i+1]):
			first = append(first, arg, args[i+1])
			i++
		default: // what reads the value says what it should be
			first = append(first, arg+"=")
		}
	}
	line.args = append(append(first, "--"), rest...)
	return line
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
	return strings.HasPrefix(arg, "--") || isHelp(arg) || strings.HasPrefix(arg, "-") && flagNamed(flags, arg) != nil
}

// takesValue reports whether the argument after this one belongs to it. A flag
// that is not known takes none: it is refused anyhow.
func takesValue(flags []cli.Flag, arg string) bool {
	f := flagNamed(flags, arg)
	_, isSwitch := f.(*cli.BoolFlag)
	return f != nil && !isSwitch && !strings.Contains(arg, "=")
}

// flagNamed returns the flag that an argument gives, nil where there is none of
// that name.
func flagNamed(flags []cli.Flag, arg string) cli.Flag {
	name, _, _ := strings.Cut(strings.TrimLeft(arg, "-"), "=")
	for _, f := range flags {
		if slices.Contains(f.Names(), name) {
			return f
		}
	}
	return nil
}
