package completion

import (
	"fmt"
	"strings"
)

// fish returns the script for fish.
func fish(commands []command) string {
	var b strings.Builder
	b.WriteString(`# Completes arrayodds in fish: made by "arrayodds completion fish".

# Reports whether the first word behind the program is that one; without one, whether
# there is none yet.
function __arrayodds_command_is
	set -l words (commandline -opc)
	test "$words[2]" = "$argv[1]"
end

complete -c arrayodds -f
complete -c arrayodds -n '__arrayodds_command_is ""' -l help -d 'show help'
complete -c arrayodds -n '__arrayodds_command_is ""' -l version -d 'print the version'
`)
	for _, c := range commands {
		fmt.Fprintf(&b, "\ncomplete -c arrayodds -n '__arrayodds_command_is \"\"' -a %s -d %s\n", c.name, inFishQuotes(c.usage))
		line := fmt.Sprintf("complete -c arrayodds -n '__arrayodds_command_is %s'", c.name)
		for _, f := range c.flags {
			takes := ""
			switch {
			case f.takesFile():
				takes = " -r -F"
			case f.value != "":
				takes = " -x"
			}
			fmt.Fprintf(&b, "%s -l %s%s -d %s\n", line, f.name, takes, inFishQuotes(f.usage))
		}
		if len(c.words) > 0 {
			fmt.Fprintf(&b, "%s -a %s\n", line, inFishQuotes(strings.Join(c.words, " ")))
		}
		switch c.files {
		case siteFile:
			fmt.Fprintf(&b, "%s -k -a '(__fish_complete_suffix .toml)'\n", line)
		case anyFile:
			fmt.Fprintf(&b, "%s -F\n", line)
		}
	}
	return b.String()
}

// inFishQuotes returns a text as one word of fish.
func inFishQuotes(text string) string {
	return "'" + strings.NewReplacer(`\`, `\\`, `'`, `\'`).Replace(text) + "'"
}
