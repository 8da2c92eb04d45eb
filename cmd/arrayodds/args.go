package main

import (
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// flagsFirst returns the arguments with the flags before the others, since the
// library stops looking for flags at the first of those. "-" is no flag, and
// nothing is one after "--". Where one of them asks for help, it is all that is
// left: the library takes what stands beside it for the name of a command.
func flagsFirst(flags []cli.Flag, args []string) []string {
	var first, rest []string
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
			return []string{arg}
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
	return append(append(first, "--"), rest...)
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
