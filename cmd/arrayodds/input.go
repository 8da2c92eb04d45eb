package main

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"arrayodds/array/schedule/workbook"
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
	opened []opened     // the site file, if it was, and then what it names
	parts  []input      // that the site file came in, where it did
}

// opened is a file that was opened to be read.
type opened struct {
	path string // as the site file names it, "" for the site file
	info fs.FileInfo
	read *bytes.Buffer // what was read of it; nil of the site file
}

// site reads the site file of a command, and the schedule of cameras and the logo that
// it may name. What is wrong with them, be it that they are not there, is noted.
func (p program) site(a *arguments, opts ...site.Option) (siteInput, error) {
	in := siteInput{path: a.input("site file")}
	if in.path == "" {
		return in, nil
	}
	err := p.readSite(&in, opts...)
	return in, a.note(err)
}

// file returns the site file as it stands, nil where it could not be read.
func (in siteInput) file() *site.File {
	if in.source == nil {
		return nil
	}
	return in.source.File()
}

// inputs lists the files that were read, by the names that errors give them.
func (in siteInput) inputs() []input {
	all := in.parts
	for _, o := range in.opened {
		name := o.path + ", which the site file names"
		switch f := in.file(); {
		case o.path == "":
			name = "the site file"
		case f != nil && o.path == f.Schedule:
			name = "the schedule of cameras"
		case f != nil && o.path == f.Logo:
			name = "the logo"
		}
		all = append(all, input{o.info, name})
	}
	return all
}

// readSite reads the site file at the path of in, or standard input. The error is of
// type [usageErrors] where a file is at fault.
func (p program) readSite(in *siteInput, opts ...site.Option) error {
	name, from := in.path, p.in
	if in.path == stdio {
		name = "standard input"
	} else {
		f, err := os.Open(in.path)
		if err != nil {
			return usageErrorf("%v", err)
		}
		defer f.Close() // only read from
		from = f
	}
	in.note("", from)
	// A root, so that no link leads out of the folder either.
	if root, err := os.OpenRoot(siteDir(in.path)); err == nil {
		defer root.Close() // only read from
		opts = append(opts, site.Beside(noting{root.FS(), in}), site.Workbooks(workbook.Read))
	}
	var text bytes.Buffer
	source, err := axis.Open(io.TeeReader(from, &text), name, opts...)
	in.source, in.text = source, text.Bytes()
	if errs, ok := errors.AsType[site.Errors](err); ok {
		return siteErrors(errs)
	}
	if pathErr := (*os.PathError)(nil); errors.As(err, &pathErr) { // such as reading a directory
		return usageErrorf("%v", err)
	}
	return err
}

// note notes a file that was opened, if it is one.
func (in *siteInput) note(path string, from any) {
	if f, ok := from.(interface{ Stat() (fs.FileInfo, error) }); ok {
		if info, err := f.Stat(); err == nil {
			in.opened = append(in.opened, opened{path, info, &bytes.Buffer{}})
		}
	}
}

// keeping is a file that keeps what is read of it.
type keeping struct {
	fs.File
	read *bytes.Buffer
}

func (k keeping) Read(p []byte) (int, error) {
	n, err := k.File.Read(p)
	k.read.Write(p[:n])
	return n, err
}

// noting is a file system that notes what is opened in it.
type noting struct {
	fs.FS
	in *siteInput
}

// Open opens a file and notes it.
func (n noting) Open(name string) (fs.File, error) {
	f, err := n.FS.Open(name)
	if err != nil {
		return nil, err
	}
	n.in.note(name, f)
	if o := n.in.opened; len(o) > 0 && o[len(o)-1].path == name {
		f = keeping{f, o[len(o)-1].read}
	}
	return f, nil
}

// siteDir returns the directory where what a site file names is looked for: that of
// the file, and for standard input the one that the user is in.
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
