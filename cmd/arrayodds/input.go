package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/site/axis"
)

// stdio is the path that means standard input or standard output.
const stdio = "-"

// siteInput is a site file that a command was called with.
type siteInput struct {
	path   string
	text   []byte
	source *axis.Source // nil where it could not be read
}

// site reads the site file of a command, and the schedule of cameras that it may
// name. What is wrong with them, be it that they are not there, is noted.
func (p program) site(a *arguments, opts ...site.Option) (siteInput, error) {
	in := siteInput{path: a.input("site file")}
	if in.path == "" {
		return in, nil
	}
	var err error
	in.source, in.text, err = p.readSite(in.path, opts...)
	return in, a.note(err)
}

// file returns the site file as it stands, nil where it could not be read.
func (in siteInput) file() *site.File {
	if in.source == nil {
		return nil
	}
	return in.source.File()
}

// choices returns the choices of the site, none where it could not be read.
func (in siteInput) choices() []array.Choice {
	if in.source == nil {
		return nil
	}
	return in.file().Site.Choices
}

// inputs lists the files that are read, by the names that errors give them.
func (in siteInput) inputs() []input {
	all := []input{{in.path, "the site file"}}
	if f := in.file(); f != nil && f.Schedule != "" {
		all = append(all, input{filepath.Join(siteDir(in.path), filepath.FromSlash(f.Schedule)), "the schedule of cameras"})
	}
	return all
}

// readSite reads a site file, or standard input. The error is of type
// [usageErrors] where a file is at fault.
func (p program) readSite(path string, opts ...site.Option) (*axis.Source, []byte, error) {
	name, from := path, p.in
	if path == stdio {
		name = "standard input"
	} else {
		f, err := os.Open(path)
		if err != nil {
			return nil, nil, usageErrorf("%v", err)
		}
		defer f.Close() // only read from
		from = f
	}
	// A root, so that no link leads out of the folder either.
	if root, err := os.OpenRoot(siteDir(path)); err == nil {
		defer root.Close() // only read from
		opts = append(opts, site.Beside(root.FS()))
	}
	var text bytes.Buffer
	source, err := axis.Open(io.TeeReader(from, &text), name, opts...)
	if errs, ok := errors.AsType[site.Errors](err); ok {
		return nil, nil, siteErrors(errs)
	}
	if pathErr := (*os.PathError)(nil); errors.As(err, &pathErr) { // such as reading a directory
		return nil, nil, usageErrorf("%v", err)
	}
	return source, text.Bytes(), err
}

// siteDir returns the directory where a site file's schedule is looked for: that
// of the file, and for standard input the one that the user is in.
func siteDir(path string) string {
	if path == stdio {
		return "."
	}
	return filepath.Dir(path)
}

// sitePage returns where the page of a command goes that no flag sends elsewhere:
// to the site file's name with the command's behind it, for compare (which has
// no kind) without.
func sitePage(path, kind string) string {
	switch {
	case path == stdio && kind == "":
		return "report.html"
	case path == stdio:
		return kind + ".html"
	case kind == "":
		return strings.TrimSuffix(path, ".toml") + ".html"
	}
	return strings.TrimSuffix(path, ".toml") + "-" + kind + ".html"
}

// sitePageText says in a command's help what [sitePage] does.
func sitePageText(kind string) string {
	return "the site file's name with " + strings.TrimPrefix(sitePage(".toml", kind), ".toml") + "; " + sitePage(stdio, kind) + " where that is standard input"
}
