package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"arrayodds/array/site"
	"arrayodds/charts/compare"
	"arrayodds/cmd/arrayodds/export"
	"arrayodds/cmd/arrayodds/whole"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
	"golang.org/x/term"
)

// format is a form in which a command writes what it found, an R.
type format[R any] struct {
	flag   string
	usage  string
	binary bool
	write  func(io.Writer, R) error
}

// formats are those of compare. A new one is a line here.
var formats = []format[study.Comparison]{
	{"html", "write the report to `FILE`", false, compare.Write},
	{"json", "write every figure as JSON to `FILE`", false, export.JSON},
	{"csv", "write one row a choice as CSV to `FILE`", false, export.CSV},
	{"xlsx", "write a workbook to `FILE`", true, export.XLSX},
}

// formatFlags returns the flags that name the files of a command. page says
// where its page goes without a flag.
func formatFlags[R any](formats []format[R], page string) []cli.Flag {
	var flags []cli.Flag
	for _, f := range formats {
		flag := &cli.StringSliceFlag{Name: f.flag, Usage: f.usage}
		if f.flag == "html" {
			flag.DefaultText = page
		}
		flags = append(flags, flag)
	}
	return flags
}

// output is a format and where it goes.
type output[R any] struct {
	format[R]
	path string // "-" is standard output
}

// wanted lists the outputs of a command line: those named by a flag, and the
// report in any case, there or beside the input.
func wanted[R any](c *cli.Context, formats []format[R], beside string) []output[R] {
	var outs []output[R]
	for _, f := range formats {
		paths := c.StringSlice(f.flag)
		if f.flag == "html" && !c.IsSet(f.flag) {
			paths = []string{beside}
		}
		for _, path := range paths {
			outs = append(outs, output[R]{f, path})
		}
	}
	return outs
}

func reportBeside(site string) string {
	if site == stdio {
		return "report.html"
	}
	return strings.TrimSuffix(site, ".toml") + ".html"
}

// misplaced says which outputs cannot go where they are sent. The input is a
// path, and called so in words.
func misplaced[R any](p program, outs []output[R], input, words string) refused {
	var faults refused
	for i, o := range outs {
		switch {
		case o.path == "":
			faults = append(faults, refuse("--%s needs the name of a file, or - for standard output", o.flag)...)
			continue
		case o.path == stdio && o.binary && isTerminal(p.out):
			faults = append(faults, refuse("--%s - would write a workbook to the terminal; send it to a file", o.flag)...)
		case o.path != stdio:
			if input != stdio && whole.Same(o.path, input) {
				faults = append(faults, refuse("--%s %s would overwrite %s", o.flag, o.path, words)...)
			} else if err := whole.Check(o.path); err != nil {
				faults = append(faults, refuse("--%s: %v", o.flag, err)...)
			}
		}
		for _, other := range outs[:i] {
			if o.path == other.path || o.path != stdio && other.path != stdio && whole.Same(o.path, other.path) {
				faults = append(faults, refuse("--%s and --%s both go to %s; right would be a place for each", other.flag, o.flag, o.path)...)
				break // once for each output
			}
		}
	}
	return faults
}

// overSchedule says which outputs would overwrite the schedule of cameras.
func overSchedule[R any](outs []output[R], sitePath string, file *site.File) refused {
	var faults refused
	if file == nil || file.Schedule == "" {
		return nil
	}
	schedule := filepath.Join(folderOf(sitePath), filepath.FromSlash(file.Schedule))
	for _, o := range outs {
		if o.path != stdio && o.path != "" && whole.Same(o.path, schedule) {
			faults = append(faults, refuse("--%s %s would overwrite the schedule of cameras", o.flag, o.path)...)
		}
	}
	return faults
}

// deliver renders everything first, then puts the files in place together, and
// what goes to standard output last. It returns the bytes for standard output.
func deliver[R any](ctx context.Context, outs []output[R], r R) ([]byte, error) {
	var files []whole.File
	var standard []byte
	for _, o := range outs {
		var b bytes.Buffer
		if err := o.write(&b, r); err != nil {
			return nil, fmt.Errorf("--%s: %w", o.flag, err)
		}
		if o.path == stdio {
			standard = b.Bytes()
			continue
		}
		files = append(files, whole.File{Path: o.path, Data: b.Bytes()})
	}
	return standard, whole.Write(ctx, files)
}

// tell writes the table, and what an output sent to standard output.
func tell[R any](p program, outs []output[R], standard []byte, table func(io.Writer) error) error {
	words := p.out
	if standard != nil {
		if _, err := p.out.Write(standard); err != nil {
			return err
		}
		words = p.err
	}
	if err := table(words); err != nil {
		return err
	}
	for _, o := range outs {
		if o.path == stdio {
			continue
		}
		if _, err := fmt.Fprintln(words, "wrote", o.path); err != nil {
			return err
		}
	}
	return nil
}

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}
