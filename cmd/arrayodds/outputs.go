package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"

	"arrayodds/cmd/arrayodds/atomicfile"
	"arrayodds/cmd/arrayodds/export"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
	"golang.org/x/term"
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
	path string // "-" is standard output
}

// input is a file that is read, and so not to be written.
type input struct{ path, name string }

// outputs returns what the command line asks for of a result: a file for each
// time that a flag names one, and the page in any case. What cannot go where it is
// sent is noted.
func (p program) outputs(a *arguments, result any, page string, inputs ...input) []output {
	var outs []output
	for _, f := range export.FormatsOf(result) {
		paths := a.StringSlice(f.Name)
		if f.Always && !a.IsSet(f.Name) {
			paths = []string{page}
		}
		for _, path := range paths {
			outs = append(outs, output{f, path})
		}
	}
	p.checkOutputs(a, outs, inputs)
	return outs
}

// checkOutputs notes which outputs cannot go where they are sent.
func (p program) checkOutputs(a *arguments, outs []output, inputs []input) {
	for i, o := range outs {
		switch {
		case o.path == "":
			a.wrong("--%s needs the name of a file, or - for standard output", o.Name)
			continue
		case o.path == stdio && o.Binary && isTerminal(p.out):
			a.wrong("--%s - would write to the terminal what is no text; send it to a file", o.Name)
		case o.path != stdio:
			if in := overwritten(o.path, inputs); in != "" {
				a.wrong("--%s %s would overwrite %s", o.Name, o.path, in)
			} else if err := atomicfile.Check(o.path); err != nil {
				a.wrong("--%s: %v", o.Name, err)
			}
		}
		for _, other := range outs[:i] {
			if o.path == other.path || o.path != stdio && other.path != stdio && atomicfile.Same(o.path, other.path) {
				a.wrong("--%s and --%s both go to %s; right would be a place for each", other.Name, o.Name, o.path)
				break // once for each output
			}
		}
	}
}

// overwritten returns the name of the input that stands at a path, "" where none
// does.
func overwritten(path string, inputs []input) string {
	for _, in := range inputs {
		if in.path != stdio && in.path != "" && atomicfile.Same(path, in.path) {
			return in.name
		}
	}
	return ""
}

// runAndWrite computes what is asked of a site, with a progress bar, writes the result in
// every format that is asked for, and prints its summary.
func runAndWrite[R any](ctx context.Context, p program, outs []output, asked study.Request, compute func(context.Context, study.Request) (R, error), summary func(io.Writer, R) error) error {
	bar := newProgress(p.err)
	asked.Options.Progress = bar.show()
	result, err := compute(ctx, asked)
	bar.clear() // before anything is printed
	if err != nil {
		return asUsageError(err)
	}
	return writeResult(ctx, p, outs, result, summary)
}

// writeResult writes a result in every format that is asked for, and prints its
// summary.
func writeResult[R any](ctx context.Context, p program, outs []output, result R, summary func(io.Writer, R) error) error {
	standard, err := writeOutputs(ctx, outs, result)
	if err != nil {
		return err
	}
	return p.printSummary(outs, standard, func(w io.Writer) error { return summary(w, result) })
}

// writeOutputs renders everything first, then puts the files in place together.
// It returns the bytes for standard output, nil where nothing goes there.
func writeOutputs(ctx context.Context, outs []output, result any) ([]byte, error) {
	var files []atomicfile.File
	var standard []byte
	for _, o := range outs {
		var b bytes.Buffer
		if err := o.Write(&b, result); err != nil {
			return nil, fmt.Errorf("--%s: %w", o.Name, err)
		}
		if o.path == stdio {
			standard = b.Bytes()
			continue
		}
		files = append(files, atomicfile.File{Path: o.path, Data: b.Bytes()})
	}
	return standard, atomicfile.Write(ctx, files)
}

// printSummary prints a summary, and which files were written, on standard
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
		if o.path == stdio {
			continue
		}
		if _, err := fmt.Fprintln(to, "wrote", o.path); err != nil {
			return err
		}
	}
	return nil
}

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}
