package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"

	"arrayodds/cmd/arrayodds/atomicfile"
	"arrayodds/cmd/arrayodds/console"
	"arrayodds/cmd/arrayodds/export"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

// outputFlags returns the flags that name the files of a command, one for each
// format that its result can be written in. page says where its page goes without
// one.
func outputFlags(result any, page string) []cli.Flag {
	var flags []cli.Flag
	for _, f := range export.FormatsOf(result) {
		flag := &cli.StringSliceFlag{Name: f.Name, Usage: f.Usage}
		if f.Always {
			flag.DefaultText = page
		}
		flags = append(flags, flag)
	}
	return flags
}

// output is a format and where it goes.
type output struct {
	export.Format
	path     string // "-" is standard output
	place    atomicfile.Place
	standard bool // it goes to standard output, by whatever name
}

// input is a file that is read, and so not to be written.
type input struct {
	info fs.FileInfo
	name string
}

// outputs returns what the command line asks for of a result: a file for each
// time that a flag names one, and the page in any case. What cannot go where it is
// sent is noted.
func (p program) outputs(a *arguments, result any, page string, inputs ...input) []output {
	if a.part != nil {
		return p.partOutputs(a, result, page, inputs...)
	}
	if a.IsSet("out") && !a.IsSet("part") {
		a.wrong("found --out without --part; right would be both, or a flag for a result, such as --html")
	}
	var outs []output
	for _, f := range export.FormatsOf(result) {
		paths := a.StringSlice(f.Name)
		if f.Always && !a.IsSet(f.Name) {
			paths = []string{page}
		}
		for _, path := range paths {
			outs = append(outs, output{Format: f, path: path})
		}
	}
	p.checkOutputs(a, outs, inputs)
	return outs
}

// checkOutputs finds the places of outputs, and notes which cannot go where they are
// sent.
func (p program) checkOutputs(a *arguments, outs []output, inputs []input) {
	for i := range outs {
		o := &outs[i]
		if o.path == "" {
			a.wrong("--%s needs the name of a file, or - for standard output", o.Name)
			continue
		}
		err := p.place(o)
		if in := overwritten(o.place, inputs); err == nil && in != "" {
			err = fmt.Errorf("--%s %s would overwrite %s", o.Name, o.path, in)
		}
		switch {
		case err != nil:
			a.wrong("%v", err)
		case o.standard && o.Binary && console.IsTerminal(p.out):
			a.wrong("--%s %s would write to the terminal what is no text; send it to a file", o.Name, o.path)
		}
		for _, other := range outs[:i] {
			if sameOutput(*o, other) {
				a.wrong("--%s and --%s both go to %s; right would be a place for each", other.Name, o.Name, o.path)
				break // once for each output
			}
		}
	}
}

// sameOutput reports whether two outputs go to one place. What is thrown away may be
// many.
func sameOutput(o, other output) bool {
	if o.path == stdio && other.path == stdio {
		return true
	}
	return (o.path == other.path || o.place.Same(other.place)) && !o.place.Null()
}

// place finds the place of an output. An error says why it cannot go there.
func (p program) place(o *output) (err error) {
	out, err := placeOf(p.out)
	if o.path == stdio {
		o.place, o.standard = out, true
		return err // none: standard output was open when the program began
	}
	if o.place, err = atomicfile.Find(o.path); err != nil {
		return fmt.Errorf("--%s: %w", o.Name, err)
	}
	switch errOut, _ := placeOf(p.err); {
	case o.place.Null():
	case o.place.Stream():
		o.standard = o.place.Same(out)
	case o.place.Same(out):
		return fmt.Errorf("--%s %s would replace the file that standard output goes to; right would be -", o.Name, o.path)
	case o.place.Same(errOut):
		return fmt.Errorf("--%s %s would replace the file that standard error goes to", o.Name, o.path)
	}
	if err := o.place.Check(); err != nil {
		return fmt.Errorf("--%s: %w", o.Name, err)
	}
	return nil
}

// placeOf returns where a stream of the program leads, no place where it is no file.
func placeOf(w io.Writer) (atomicfile.Place, error) {
	if f, ok := console.FileOf(w); ok {
		return atomicfile.PlaceOf(f)
	}
	return atomicfile.Place{}, nil
}

// overwritten returns the name of the input that stands at a place, "" where none
// does. A terminal and a socket may be both input and output.
func overwritten(place atomicfile.Place, inputs []input) string {
	for _, in := range inputs {
		if kind := in.info.Mode().Type(); (kind.IsRegular() || kind == fs.ModeNamedPipe) && place.Holds(in.info) {
			return in.name
		}
	}
	return ""
}

// runAndWrite computes what is asked of a site, with a progress bar, writes the result in
// every format that is asked for, and prints its summary.
func runAndWrite[R any](ctx context.Context, p program, outs []output, asked study.Request, compute func(context.Context, study.Request) (R, error), summary func(io.Writer, R) error) error {
	bar := console.NewProgress(p.err)
	asked.Options.Progress = bar.Show()
	result, err := compute(ctx, asked)
	bar.Clear() // before anything is printed
	if err != nil {
		return asUsageError(err)
	}
	return writeResult(ctx, p, outs, result, summary)
}

// writeResult writes a result in every format that is asked for, and prints its
// summary. Files come last, since all else that fails must leave none: they are on
// disk by then, and only want their names.
func writeResult[R any](ctx context.Context, p program, outs []output, result R, summary func(io.Writer, R) error) (err error) {
	files, standard, err := render(outs, result)
	if err != nil {
		return err
	}
	staged, err := atomicfile.Stage(files)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, staged.Discard()) }()
	if err := ctx.Err(); err != nil {
		return err
	}
	if err := staged.WriteStreams(); err != nil {
		return err
	}
	if err := p.printSummary(outs, standard, func(w io.Writer) error { return summary(w, result) }); err != nil {
		return err
	}
	return staged.Commit(ctx)
}

// render writes a result in every format that is asked for. It returns the bytes for
// standard output apart, nil where nothing goes there.
func render(outs []output, result any) (files []atomicfile.File, standard []byte, err error) {
	for _, o := range outs {
		var b bytes.Buffer
		if err := o.Write(&b, result); err != nil {
			return nil, nil, fmt.Errorf("--%s: %w", o.Name, err)
		}
		if o.standard {
			standard = b.Bytes()
			continue
		}
		files = append(files, atomicfile.File{Place: o.place, Data: b.Bytes()})
	}
	return files, standard, nil
}

// printSummary prints a summary, and which files are written, on standard
// output; on standard error where standard output is taken.
func (p program) printSummary(outs []output, standard []byte, summary func(io.Writer) error) error {
	to := p.out
	if standard != nil {
		if _, err := p.out.Write(standard); err != nil {
			return err
		}
		to = p.err
	}
	if err := summary(to); err != nil {
		return err
	}
	for _, o := range outs {
		if o.standard {
			continue
		}
		if _, err := fmt.Fprintln(to, "wrote", o.path); err != nil {
			return err
		}
	}
	return nil
}
