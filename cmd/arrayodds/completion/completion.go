// Package completion writes the scripts by which shells complete a command line. All
// that they know is in the table of commands that the program itself reads: names,
// flags, what the flags take and, by its usage, what a command takes beside them.
package completion

import (
	"regexp"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// Shells are the shells that there is a script for.
var Shells = []string{"bash", "zsh", "fish"}

// Script returns the script for a shell; false where there is none.
func Script(commands []*cli.Command, shell string) (string, bool) {
	write := map[string]func([]command) string{"bash": bash, "zsh": zsh, "fish": fish}[shell]
	if write == nil {
		return "", false
	}
	return write(table(commands)), true
}

// command is what a script knows of a command.
type command struct {
	name, usage string
	flags       []flag
	words       []string // that may stand as its argument
	files       string   // what else may: anyFile, siteFile or neither
}

// flag is what a script knows of a flag.
type flag struct {
	name, usage string
	repeats     bool
	value       string // what stands behind it, "" where nothing does
}

const (
	anyFile  = "file"
	siteFile = "*.toml"
)

// takesFile reports whether the value of a flag is the path of a file.
func (f flag) takesFile() bool { return f.value == "FILE" }

// table returns what scripts know of commands.
func table(commands []*cli.Command) (all []command) {
	var names []string
	for _, c := range commands {
		names = append(names, c.Name)
	}
	for _, c := range commands {
		of := command{name: c.Name, usage: c.Usage}
		for _, f := range c.Flags {
			if f != cli.HelpFlag { // which the library adds to the command that runs
				of.flags = append(of.flags, flagOf(f))
			}
		}
		of.flags = append(of.flags, flag{name: "help", usage: "show help"})
		of.words, of.files = arguments(c, names)
		all = append(all, of)
	}
	return all
}

// flagOf returns what scripts know of a flag. What it takes stands in its usage in
// backquotes, as the library has it.
func flagOf(f cli.Flag) flag {
	of := flag{name: f.Names()[0]}
	if doc, ok := f.(cli.DocGenerationFlag); ok {
		of.usage = strings.ReplaceAll(doc.GetUsage(), "`", "")
		if doc.TakesValue() {
			of.value = "VALUE"
			if _, after, ok := strings.Cut(doc.GetUsage(), "`"); ok {
				of.value, _, _ = strings.Cut(after, "`")
			}
		}
	}
	_, of.repeats = f.(*cli.StringSliceFlag)
	return of
}

// usageWord matches what stands for an argument in a command's usage.
var usageWord = regexp.MustCompile(`[\w.]+`)

// arguments returns what may stand as the argument of a command, by its usage: words
// in small letters as they are, COMMAND for the commands' names, SITE.toml for such a
// file, other capitals for any file, but for NAME and KEY, which are no files.
func arguments(c *cli.Command, commands []string) (words []string, files string) {
	_, usage, _ := strings.Cut(c.UsageText, c.Name)
	usage, _, _ = strings.Cut(usage, "[flags]")
	usage, _, _ = strings.Cut(usage, "--")
	for _, word := range usageWord.FindAllString(usage, -1) {
		switch {
		case word == "COMMAND":
			words = append(slices.Clone(commands), words...)
		case word == "NAME" || word == "KEY":
		case strings.HasSuffix(word, ".toml"):
			files = siteFile
		case strings.ToUpper(word) == word:
			files = anyFile
		default:
			words = append(words, word)
		}
	}
	return words, files
}
