package completion

import (
	"fmt"
	"strings"
)

// bash returns the script for bash. It takes the versions that systems come with, from
// 3.2 on, and needs nothing beside it.
func bash(commands []command) string {
	var cases strings.Builder
	var names []string
	for _, c := range commands {
		names = append(names, c.name)
		var flags, paths, values []string
		for _, f := range c.flags {
			flags = append(flags, "--"+f.name)
			switch {
			case f.takesFile():
				paths = append(paths, "--"+f.name)
			case f.value != "":
				values = append(values, "--"+f.name)
			}
		}
		fmt.Fprintf(&cases, "\t%s)\n", c.name)
		for _, set := range []struct {
			name string
			to   []string
		}{{"flags", flags}, {"paths", paths}, {"values", values}, {"words", c.words}, {"files", strings.Fields(c.files)}} {
			if len(set.to) > 0 {
				fmt.Fprintf(&cases, "\t\t%s='%s'\n", set.name, strings.Join(set.to, " "))
			}
		}
		cases.WriteString("\t\t;;\n")
	}
	return `# Completes arrayodds in bash: made by "arrayodds completion bash".

_arrayodds() {
	local word=${COMP_WORDS[COMP_CWORD]} before= command= flags= paths= values= words= files= i found
	((COMP_CWORD > 0)) && before=${COMP_WORDS[COMP_CWORD - 1]}
	# bash takes --flag=value for three words.
	if [[ $word == = ]]; then
		word=
	elif [[ $before == = ]]; then
		before=${COMP_WORDS[COMP_CWORD - 2]}
	fi
	for ((i = 1; i < COMP_CWORD; i++)); do
		if [[ ${COMP_WORDS[i]} != -* ]]; then
			command=${COMP_WORDS[i]}
			break
		fi
	done
	case $command in
	'')
		flags='--help --version'
		words='` + strings.Join(names, " ") + `'
		;;
` + cases.String() + `	esac
	COMPREPLY=()
	if [[ " $paths " == *" $before "* ]]; then
		words= files=file
	elif [[ " $values " == *" $before "* ]]; then
		return
	elif [[ $word == -* ]]; then
		words=$flags files=
	fi
	while IFS= read -r found; do
		COMPREPLY+=("$found")
	done < <(
		compgen -W "$words" -- "$word"
		case $files in
		file) compgen -f -- "$word" ;;
		?*)
			compgen -d -- "$word"
			compgen -f -X "!$files" -- "$word"
			;;
		esac
	)
	if [[ $files ]]; then
		compopt -o filenames 2>/dev/null # from bash 4 on
	fi
}

complete -F _arrayodds arrayodds
`
}
