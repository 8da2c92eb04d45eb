package completion

import (
	"fmt"
	"strings"
)

// zsh returns the script for zsh: a function for a folder of fpath, or to be read when
// the shell starts.
func zsh(commands []command) string {
	var list, cases strings.Builder
	for _, c := range commands {
		fmt.Fprintf(&list, "\t\t\t%s\n", inQuotes(c.name+":"+c.usage))
		fmt.Fprintf(&cases, "\t\t%s)\n\t\t\t_arguments", c.name)
		for _, f := range c.flags {
			spec := "--" + f.name
			if f.repeats {
				spec = "*" + spec
			}
			if f.value != "" {
				spec += "="
			}
			spec += "[" + bracketed.Replace(f.usage) + "]"
			switch {
			case f.takesFile():
				spec += ":" + f.value + ":_files"
			case f.value != "":
				spec += ":" + f.value + ": "
			}
			fmt.Fprintf(&cases, " \\\n\t\t\t\t%s", inQuotes(spec))
		}
		var takes []string
		if len(c.words) > 0 {
			takes = append(takes, "words:word:("+strings.Join(c.words, " ")+")")
		}
		switch c.files {
		case siteFile:
			takes = append(takes, `files:file:_files -g "*.toml"`)
		case anyFile:
			takes = append(takes, "files:file:_files")
		}
		if len(takes) == 1 {
			_, action, _ := strings.Cut(takes[0], ":")
			fmt.Fprintf(&cases, " \\\n\t\t\t\t%s", inQuotes("*:"+action))
		} else if len(takes) > 1 {
			fmt.Fprintf(&cases, " \\\n\t\t\t\t%s", inQuotes(`*: :_alternative `+inQuotes(takes[0])+" "+inQuotes(takes[1])))
		}
		cases.WriteString("\n\t\t\t;;\n")
	}
	return `#compdef arrayodds
# Completes arrayodds in zsh: made by "arrayodds completion zsh".

_arrayodds() {
	local state line context
	typeset -A opt_args
	_arguments -C '--help[show help]' '--version[print the version]' '1: :->command' '*:: :->arguments'
	case $state in
	command)
		local -a commands
		commands=(
` + list.String() + `		)
		_describe command commands
		;;
	arguments)
		case $words[1] in
` + cases.String() + `		esac
		;;
	esac
}

if [[ $funcstack[1] == _arrayodds ]]; then
	_arrayodds "$@"
else
	compdef _arrayodds arrayodds
fi
`
}

// bracketed escapes what stands in brackets as the explanation of a flag.
var bracketed = strings.NewReplacer(`\`, `\\`, `[`, `\[`, `]`, `\]`, `:`, `\:`)

// inQuotes returns a text as one word of bash and zsh.
func inQuotes(text string) string { return "'" + strings.ReplaceAll(text, "'", `'\''`) + "'" }
