package main

import (
	"errors"
	"os"

	"github.com/urfave/cli/v2"

	"arrayodds/array/site"
)

// stdio is the path that means standard input or standard output.
const stdio = "-"

// siteArgument is the one argument of a command: a path, or "-".
func siteArgument(c *cli.Context) (string, refused) { return argument(c, "site file") }

// argument is the path of an input, called so in words.
func argument(c *cli.Context, words string) (string, refused) {
	switch {
	case c.NArg() == 0:
		return "", refuse("no %s given; see %s --help", words, c.Command.HelpName)
	case c.NArg() > 1:
		return "", refuse("one %s at a time, found %q; see %s --help", words, c.Args().Slice(), c.Command.HelpName)
	}
	return c.Args().First(), nil
}

// read reads the site file. An error is of type refused where the file is at
// fault, be it by not being there.
func (p program) read(path string) (*site.File, error) {
	name, from := path, p.in
	if path == stdio {
		name = "standard input"
	} else {
		f, err := os.Open(path)
		if err != nil {
			return nil, refuse("%v", err)
		}
		defer f.Close() // only read from
		from = f
	}
	file, err := site.Read(from, name)
	if faults, ok := errors.AsType[site.Errors](err); ok {
		return nil, siteFaults(faults)
	}
	if pathErr := (*os.PathError)(nil); errors.As(err, &pathErr) { // such as reading a directory
		return nil, refuse("%v", err)
	}
	return file, err
}
