package main

import (
	"strings"

	"github.com/urfave/cli/v2"
)

// flagsFirst brings flags before the other arguments, since the library stops
// looking for flags at the first of those. "-" is no flag, and nothing is one
// after "--".
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
		first = append(first, arg)
		if takesValue(flags, arg) && i+1 < len(args) {
			i++
			first = append(first, args[i])
		}
	}
	return append(append(first, "--"), rest...)
}

// takesValue says whether the argument after this one belongs to it. A flag
// that is not known takes none: it is refused anyhow.
func takesValue(flags []cli.Flag, arg string) bool {
	name := strings.TrimLeft(arg, "-")
	if strings.Contains(name, "=") {
		return false
	}
	for _, f := range flags {
		for _, n := range f.Names() {
			if n == name {
				_, isSwitch := f.(*cli.BoolFlag)
				return !isSwitch
			}
		}
	}
	return false
}
