package main

import (
	"arrayodds/array/site/axis"

	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"

	"arrayodds/array/site"

	"github.com/urfave/cli/v2"
)

// stdio is the path that means standard input or standard output.
const stdio = "-"

// siteArgument is the one argument of a command: a path, or "-".
func siteArgument(c *cli.Context) (string, refused) { return argument(c, "site file") }

// argument is the path of an input, called so in words; "" where there is none to
// read. What is wrong with the arguments so far comes with it.
func argument(c *cli.Context, words string) (string, refused) {
	faults, _ := c.App.Metadata[mistakes].(refused)
	switch {
	case c.NArg() == 0 || c.Args().First() == "":
		return "", append(faults, refuse("no %s given; see %s --help", words, c.Command.HelpName)...)
	case c.NArg() > 1:
		return "", append(faults, refuse("one %s at a time, found %q; see %s --help", words, c.Args().Slice(), c.Command.HelpName)...)
	}
	return c.Args().First(), faults
}

// read reads the site file, and the schedule of cameras that it may name. An
// error is of type refused where a file is at fault, be it by not being there.
func (p program) read(path string, opts ...site.Option) (*site.File, error) {
	file, _, err := p.readText(path, opts...)
	return file, err
}

// readText is read with the text of the site file.
func (p program) readText(path string, opts ...site.Option) (*site.File, []byte, error) {
	source, text, err := p.open(path, opts...)
	if err != nil {
		return nil, nil, err
	}
	return source.File(), text, nil
}

// open is readText with the file kept to be read again with other values.
func (p program) open(path string, opts ...site.Option) (*axis.Source, []byte, error) {
	name, from := path, p.in
	if path == stdio {
		name = "standard input"
	} else {
		f, err := os.Open(path)
		if err != nil {
			return nil, nil, refuse("%v", err)
		}
		defer f.Close() // only read from
		from = f
	}
	// A root, so that no link leads out of the folder either.
	if root, err := os.OpenRoot(folderOf(path)); err == nil {
		defer root.Close() // only read from
		opts = append(opts, site.Beside(root.FS()))
	}
	var text bytes.Buffer
	source, err := axis.Open(io.TeeReader(from, &text), name, opts...)
	if faults, ok := errors.AsType[site.Errors](err); ok {
		return nil, nil, siteFaults(faults)
	}
	if pathErr := (*os.PathError)(nil); errors.As(err, &pathErr) { // such as reading a directory
		return nil, nil, refuse("%v", err)
	}
	return source, text.Bytes(), err
}

// folderOf is where a site file's schedule is looked for: beside it, and for
// standard input in the directory that one is in.
func folderOf(path string) string {
	if path == stdio {
		return "."
	}
	return filepath.Dir(path)
}
