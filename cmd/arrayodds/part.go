package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"arrayodds/array/site"
	"arrayodds/cmd/arrayodds/console"
	"arrayodds/cmd/arrayodds/export"
	"arrayodds/cmd/arrayodds/partfile"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

// partFlags returns the flags of a question that can be divided. kind is as in [sitePage].
func partFlags(kind string) []cli.Flag {
	page := strings.TrimPrefix(partPath(sitePage(".toml", kind), "I", "N"), ".toml")
	return []cli.Flag{
		&cli.StringFlag{Name: "blocks", Usage: fmt.Sprintf("simulate this `NUMBER` of blocks of %d trials of everything, with no stopping rule", engine.TrialsPerBlock), DefaultText: "until it is accurate"},
		&cli.StringFlag{Name: "part", Usage: "work out part `I/N` of the question with that number of blocks, for merge", DefaultText: "all of it"},
		&cli.StringSliceFlag{Name: "out", Usage: "write the part to `FILE`", DefaultText: "the site file's name with " + page},
	}
}

// partPath returns where a part goes that no flag sends elsewhere: beside the page of the
// question.
func partPath(page, number, of string) string {
	return fmt.Sprintf("%s-%s-of-%s.part", strings.TrimSuffix(page, ".html"), number, of)
}

// options returns how to simulate: as flags and file say, and which part of it.
func (a *arguments) options(f *site.File) engine.Options {
	opt := a.read.Options(f)
	opt.Ledger = a.ledger
	return opt
}

// partOutputs returns where a part goes, and notes flags that ask for a result.
func (p program) partOutputs(a *arguments, result any, page string, inputs ...input) (outs []output) {
	for _, f := range export.FormatsOf(result) {
		if a.IsSet(f.Name) {
			a.wrong("found --%s beside --part; right would be --out for the part, and --%s of arrayodds merge once there are all parts", f.Name, f.Name)
		}
	}
	if a.Command.Name == "choose" && a.Bool("site") {
		a.wrong("found --site beside --part; right would be --site of arrayodds merge once there are all parts")
	}
	paths := a.StringSlice("out")
	if !a.IsSet("out") {
		paths = []string{partPath(page, fmt.Sprint(a.part.Number), fmt.Sprint(a.part.Of))}
	}
	part := export.Format{Name: "out", Binary: true, Writers: []export.Writer{export.Of(partfile.Write)}}
	for _, path := range paths {
		outs = append(outs, output{Format: part, path: path})
	}
	p.checkOutputs(a, outs, inputs)
	return outs
}

// runPart works out the part of a question that is asked for, with a progress bar, and
// writes it.
func runPart[R any](p program, a *arguments, in siteInput, outs []output, asked study.Request, compute func(context.Context, study.Request) (R, error)) error {
	build, err := thisBuild().Exact() // before the program could be built anew
	if err != nil {
		return err
	}
	bar := console.NewProgress(p.err)
	asked.Options.Progress = bar.Show()
	_, err = compute(a.ctx(), asked)
	bar.Clear() // before anything is printed
	if !errors.Is(err, engine.ErrPart) {
		return asUsageError(err)
	}
	part := partfile.Part{
		Question: partfile.Question{
			Command: a.Command.Name, Flags: a.questionFlags(), Site: in.path, Files: in.files(), Seed: asked.Options.Seed,
			Blocks: asked.Options.Blocks, Parts: a.part.Of, Version: build, Processor: thisBuild().Processor,
		},
		Number: a.part.Number, Found: a.ledger.Entries(),
	}
	return writeResult(a.ctx(), p, outs, part, func(w io.Writer, part partfile.Part) error {
		_, err := fmt.Fprintf(w, "Part %d of %d of a question with %d blocks. Once there are all parts: arrayodds merge PART...\n", part.Number, part.Parts, part.Blocks)
		return err
	})
}

// questionFlags returns the flags that bear on what is found.
func (a *arguments) questionFlags() (all []partfile.Flag) {
	for _, f := range a.Command.Flags {
		name := f.Names()[0]
		if !a.IsSet(name) || name == "part" || name == "out" || name == "workers" {
			continue
		}
		found := partfile.Flag{Name: name}
		switch f.(type) {
		case *cli.BoolFlag:
			if !a.Bool(name) {
				continue
			}
		case *cli.StringSliceFlag:
			found.Values = a.StringSlice(name)
		default:
			found.Values = []string{a.String(name)}
		}
		all = append(all, found)
	}
	return all
}

// files returns the site file and what was read of those that it names.
func (in siteInput) files() []partfile.File {
	all := []partfile.File{{Data: in.text}}
	for _, o := range in.opened {
		if o.path != "" {
			all = append(all, partfile.File{Name: o.path, Data: o.read.Bytes()})
		}
	}
	return all
}
