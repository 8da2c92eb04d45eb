package main

import (
	"io"
	"strings"

	"arrayodds/array/nearest"
	"arrayodds/array/reference"
	"arrayodds/array/site"
	"arrayodds/array/unit"
	"arrayodds/cmd/arrayodds/batch"
	"arrayodds/cmd/arrayodds/export/schema"
	"arrayodds/cmd/arrayodds/promises"

	"github.com/urfave/cli/v2"
)

// siteTopic is the help on the site file.
const siteTopic = "site"

// topics are what there is help on beside the commands.
var topics = []struct {
	name string
	text func() string
}{
	{siteTopic, reference.Site},
	{"state", reference.State},
	{"promises", promises.Text},
	{"schema", func() string { return schema.Text }},
	{"slurm", func() string { return batch.Slurm }},
	{"kubernetes", func() string { return batch.Kubernetes }},
}

func (p program) helpCommand() *cli.Command {
	return &cli.Command{
		Name:      "help",
		Aliases:   []string{"h"},
		Usage:     "the help of a command, or every key of the site file",
		UsageText: "arrayodds help [COMMAND | site [KEY] | state | promises | schema | slurm | kubernetes]",
		Description: `Shows what a command does and which flags it has; without one, the list of
commands. "site" is the reference of the site file: what each key takes, what
holds where it is left out, and what it is; with a key behind it, such as
care.response or bitrate, that one alone. "state" is the same of the state file that
now reads. "promises" says what you may rely on, and how it may change; "schema" is
the JSON schema of what --json writes. "slurm" is an array script, and "kubernetes" a
Job, that work out the parts of a question on a cluster.

EXAMPLE
   arrayodds help site`,
		Action: action(p.runHelp),
	}
}

func (p program) runHelp(a *arguments) error {
	topic := a.Args().First()
	switch {
	case topic == siteTopic && a.NArg() == 2:
		key := strings.Trim(a.Args().Get(1), "[]")
		if text := reference.SiteKey(key); text != "" {
			_, err := io.WriteString(p.out, text)
			return err
		}
		a.wrong("the site file has no key %s%s; see arrayodds help site", unit.Quote(key), nearest.DidYouMean(key, keyNames(key), ""))
	case a.NArg() > 1:
		a.wrong("one command at a time, found %q; see arrayodds --help", a.Args().Slice())
	case topic != "" && a.App.Command(topic) == nil:
		names := a.App.Commands
		for _, t := range topics {
			if t.name == topic {
				_, err := io.WriteString(p.out, t.text())
				return err
			}
			names = append(names, &cli.Command{Name: t.name})
		}
		a.note(unknownCommand(names, topic))
	}
	if err := a.err(); err != nil {
		return err
	}
	app := a.Lineage()[len(a.Lineage())-2] // below it is what the library adds
	if topic == "" {
		return cli.ShowAppHelp(app)
	}
	return cli.ShowCommandHelp(app, topic)
}

// keyNames lists the keys of the site file: paths where one was written, else names.
func keyNames(written string) (all []string) {
	for _, k := range site.Keys() {
		if strings.Contains(written, ".") {
			all = append(all, k.Path)
		} else {
			all = append(all, k.Name())
		}
	}
	return all
}
