package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/urfave/cli/v2"
	"golang.org/x/term"

	"arrayodds/charts"
	"arrayodds/cmd/arrayodds/export"
	"arrayodds/cmd/arrayodds/whole"
)

// format is a form in which compare writes what it found. A new one is a line
// in formats.
type format struct {
	flag   string
	usage  string
	binary bool
	write  func(io.Writer, charts.Report) error
}

var formats = []format{
	{"html", "write the report to `FILE`", false, func(w io.Writer, r charts.Report) error { return r.WriteHTML(w) }},
	{"json", "write every figure as JSON to `FILE`", false, export.JSON},
	{"csv", "write one row a choice as CSV to `FILE`", false, export.CSV},
	{"xlsx", "write a workbook to `FILE`", true, export.XLSX},
}

func formatFlags() []cli.Flag {
	var flags []cli.Flag
	for _, f := range formats {
		flag := &cli.StringFlag{Name: f.flag, Usage: f.usage}
		if f.flag == "html" {
			flag.DefaultText = "the site file's name with .html; report.html where that is standard input"
		}
		flags = append(flags, flag)
	}
	return flags
}

// output is a format and where it goes.
type output struct {
	format
	path string // "-" is standard output
}

// wanted lists the outputs of a command line: those named by a flag, and the
// report in any case.
func wanted(c *cli.Context, site string) []output {
	var outs []output
	for _, f := range formats {
		switch path := c.String(f.flag); {
		case c.IsSet(f.flag):
			outs = append(outs, output{f, path})
		case f.flag == "html":
			outs = append(outs, output{f, reportBeside(site)})
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

// misplaced says which outputs cannot go where they are sent.
func (p program) misplaced(outs []output, site string) refused {
	var faults refused
	for i, o := range outs {
		switch {
		case o.path == "":
			faults = append(faults, refuse("--%s needs the name of a file", o.flag)...)
			continue
		case strings.HasPrefix(o.path, "--"):
			faults = append(faults, refuse("--%s needs the name of a file, found the flag %s", o.flag, o.path)...)
			continue
		case o.path == stdio && o.binary && isTerminal(p.out):
			faults = append(faults, refuse("--%s - would write a workbook to the terminal; send it to a file", o.flag)...)
		case o.path != stdio:
			if site != stdio && whole.Same(o.path, site) {
				faults = append(faults, refuse("--%s %s would overwrite the site file", o.flag, o.path)...)
			} else if err := whole.Check(o.path); err != nil {
				faults = append(faults, refuse("--%s: %v", o.flag, err)...)
			}
		}
		for _, other := range outs[:i] {
			if o.path == other.path || o.path != stdio && other.path != stdio && whole.Same(o.path, other.path) {
				faults = append(faults, refuse("--%s and --%s both go to %s", other.flag, o.flag, o.path)...)
			}
		}
	}
	return faults
}

// deliver renders everything first, then puts the files in place together, and
// what goes to standard output last. It returns the bytes for standard output.
func deliver(ctx context.Context, outs []output, r charts.Report) ([]byte, error) {
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

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}
