package main

import (
	"io"
	"strings"

	"arrayodds/array/nearest"
	"arrayodds/array/site"
	"arrayodds/array/site/reference"
	"arrayodds/array/unit"
	"arrayodds/cmd/arrayodds/batch"

	"github.com/urfave/cli/v2"
)

// siteTopic is the help on the site file.
const siteTopic = "site"

// texts are the topics that are one text each: what runs parts on a cluster.
var texts = map[string]string{"slurm": batch.Slurm, "kubernetes": batch.Kubernetes}

func (p program) helpCommand() *cli.Command {
	return &cli.Command{
		Name:      "help",
		Aliases:   []string{"h"},
		Usage:     "the help of a command, or every key of the site file",
		UsageText: "arrayodds help [COMMAND | site [KEY] | slurm | kubernetes]",
		Description: `Shows what a command does and which flags it has; without one, the list of
commands. "site" is the reference of the site file: what each key takes, what
holds where it is left out, and what it is; with a key behind it, such as
care.response or bitrate, that one alone. "slurm" is an array script, and
"kubernetes" a Job, that work out the parts of a question on a cluster.

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
		if text := reference.Of(key); text != "" {
			_, err := io.WriteString(p.out, text)
			return err
		}
		a.wrong("the site file has no key %s%s; see arrayodds help site", unit.Quote(key), nearest.DidYouMean(key, keyNames(key), ""))
	case a.NArg() > 1:
		a.wrong("one command at a time, found %q; see arrayodds --help", a.Args().Slice())
	case topic == siteTopic:
		_, err := io.WriteString(p.out, reference.Text())
		return err
	case texts[topic] != "":
		_, err := io.WriteString(p.out, texts[topic])
		return err
	case topic != "" && a.App.Command(topic) == nil:
		topics := append(a.App.Commands, &cli.Command{Name: siteTopic})
		for name := range texts {
			topics = append(topics, &cli.Command{Name: name})
		}
		a.note(unknownCommand(topics, topic))
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
