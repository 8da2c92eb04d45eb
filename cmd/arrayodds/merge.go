package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"

	"arrayodds/array/schedule/workbook"
	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/cmd/arrayodds/export"
	"arrayodds/cmd/arrayodds/partfile"
	"arrayodds/sim/choose"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

// divided are the questions of which there are parts, by their commands.
func (p program) divided() map[string]struct {
	result any
	answer func(*arguments, siteInput) error
	opts   []site.Option
} {
	type question = struct {
		result any
		answer func(*arguments, siteInput) error
		opts   []site.Option
	}
	return map[string]question{
		"compare": {study.Comparison{}, p.compare, nil},
		"choose":  {choose.Found{}, p.choose, []site.Option{site.ChoicesOptional()}},
		"vary":    {study.Sweep{}, p.vary, nil},
		"rank":    {study.Ranking{}, p.rank, nil},
	}
}

func (p program) mergeCommand() *cli.Command {
	flags := []cli.Flag{&cli.BoolFlag{Name: "site", Usage: "of parts of choose: write the site file with the designs in it and nothing else", DisableDefaultText: true}}
	for _, f := range export.Formats {
		if slices.ContainsFunc([]any{study.Comparison{}, choose.Found{}}, func(r any) bool {
			return slices.ContainsFunc(export.FormatsOf(r), func(g export.Format) bool { return g.Name == f.Name })
		}) {
			flag := &cli.StringSliceFlag{Name: f.Name, Usage: f.Usage}
			if f.Always {
				flag.DefaultText = "as the command of the parts has it, in the directory you are in"
			}
			flags = append(flags, flag)
		}
	}
	flags = append(flags, simulationFlags("workers")...)
	return &cli.Command{
		Name:      "merge",
		Usage:     "put together the parts of a question that --part worked out",
		UsageText: "arrayodds merge PART... [flags]",
		Description: `Puts together what compare, choose, vary or rank worked out with --part, and writes
what the command itself writes: the digits of one run with the same --blocks. The
parts may come in any order; the site file and what it names are in them.

Parts of another site, seed, command line, number of blocks or parts, version of
the program or kind of processor do not belong together, and are refused. Where
parts are missing or damaged, it is said which, and how to run them again; nothing
is written then.

What hangs on all of the parts is worked out here: the doubt of compare (some ten
seconds of a processor at most), and of choose what comes after its race.

EXAMPLE
   arrayodds merge terminal-?-of-4.part --html terminal.html`,
		Flags:  flags,
		Action: action(p.runMerge),
	}
}

func (p program) runMerge(a *arguments) error {
	if a.NArg() == 0 {
		a.wrong("no part given; see %s --help", a.Command.HelpName)
	}
	var all []partfile.Named
	var opened []input
	for _, path := range a.Args().Slice() {
		part, in, err := p.readPart(path)
		if err := a.note(err); err != nil {
			return err
		}
		if in.info != nil {
			opened = append(opened, in)
		}
		if err == nil {
			part.Share(all)
			all = append(all, partfile.Named{Name: path, Part: part})
		}
	}
	q, found, wrong := partfile.Join(all)
	for _, w := range wrong {
		a.wrong("%s", w)
	}
	if err := a.err(); err != nil {
		return err
	}
	build, err := thisBuild().Exact()
	if err != nil {
		return err
	}
	question, known := p.divided()[q.Command]
	if !known || q.Version != build || q.Processor != thisBuild().Processor {
		return usageErrorf("%s: it is of arrayodds %s on %s; right would be to merge it with that, as this is %s on %s", all[0].Name, q.Version, q.Processor, build, thisBuild().Processor)
	}
	name := q.Site
	if name == stdio {
		name = "standard input"
	}
	source, err := axis.Open(bytes.NewReader(q.Text()), name, append(question.opts, site.Beside(q.Beside()), site.Workbooks(workbook.Read))...)
	if err != nil {
		return asUsageError(err)
	}
	for _, f := range a.Command.Flags {
		name := f.Names()[0]
		isFormat := slices.ContainsFunc(export.Formats, func(f export.Format) bool { return f.Name == name })
		takes := slices.ContainsFunc(export.FormatsOf(question.result), func(f export.Format) bool { return f.Name == name })
		if a.IsSet(name) && (isFormat && !takes || name == "site" && q.Command != "choose") {
			a.wrong("--%s: the parts are of %s, which has no such flag", name, q.Command)
		}
	}
	path := q.Site
	if path != stdio {
		path = filepath.Base(path)
	}
	a.ledger = found
	a.read.Values = partValues{a, q.Flags}
	return question.answer(a, siteInput{path: path, text: q.Text(), source: source, parts: opened})
}

// readPart reads the part at a path, or on standard input. An error is of type
// [usageErrors] where the file is at fault.
func (p program) readPart(path string) (part partfile.Part, in input, err error) {
	from := p.in
	if path != stdio {
		f, err := os.Open(path)
		if err != nil {
			return part, in, usageErrorf("%v", err)
		}
		defer f.Close() // only read from
		if in.info, err = f.Stat(); err != nil {
			return part, in, err
		}
		from, in.name = f, "the part "+path
	}
	data, err := io.ReadAll(io.LimitReader(from, partfile.MostBytes+1))
	switch pathErr := (*os.PathError)(nil); {
	case errors.As(err, &pathErr): // such as reading a directory
		return part, in, usageErrorf("%v", err)
	case err != nil:
		return part, in, err
	case len(data) > partfile.MostBytes:
		return part, in, usageErrorf("%s: it is longer than a part can be", path)
	}
	if part, err = partfile.Read(data); err != nil {
		return part, in, usageErrorf("%s %v", path, err)
	}
	return part, in, nil
}

// partValues are the flags of the question that parts are of, and of this command the
// number of workers.
type partValues struct {
	a     *arguments
	flags []partfile.Flag
}

func (v partValues) flag(name string) (values []string, set bool) {
	for _, f := range v.flags {
		if f.Name == name {
			return f.Values, true
		}
	}
	return nil, false
}

// IsSet reports whether a flag is given.
func (v partValues) IsSet(name string) bool {
	if name == "workers" {
		return v.a.IsSet(name)
	}
	_, set := v.flag(name)
	return set
}

// String returns the value of a flag.
func (v partValues) String(name string) string {
	if name == "workers" {
		return v.a.String(name)
	}
	values, _ := v.flag(name)
	if len(values) == 0 {
		return ""
	}
	return values[0]
}

// Bool reports whether a switch is on.
func (v partValues) Bool(name string) bool {
	_, set := v.flag(name)
	return set
}

// StringSlice returns the values of a flag.
func (v partValues) StringSlice(name string) []string {
	values, _ := v.flag(name)
	return values
}
