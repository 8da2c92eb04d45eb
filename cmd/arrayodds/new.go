package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"unicode/utf8"

	"arrayodds/array/site/starter"
	"arrayodds/cmd/arrayodds/atomicfile"

	"github.com/urfave/cli/v2"
)

// newSite is where the starter file goes that no argument sends elsewhere.
const newSite = "site.toml"

func (p program) newCommand() *cli.Command {
	return &cli.Command{
		Name:      "new",
		Usage:     "write a commented site file to begin with",
		UsageText: "arrayodds new [SITE.toml]",
		Description: `Writes a site file with a comment on every figure: what it is, whom to ask or
where it is found, and what holds where it is left out. Its site is invented; it
can be compared as it is, and is there to be changed. It goes to SITE.toml, or to
site.toml; "-" is standard output. A file that is there already is not touched.

EXAMPLE
   arrayodds new terminal.toml`,
		Action: action(p.runNew),
	}
}

func (p program) runNew(a *arguments) error {
	path := newSite
	switch {
	case a.NArg() > 1:
		a.wrong("one site file at a time, found %q; see %s --help", a.Args().Slice(), a.Command.HelpName)
	case a.NArg() == 1:
		path = a.Args().First()
	}
	if path == stdio && a.errs == nil {
		_, err := io.WriteString(p.out, starter.Text())
		return err
	}
	place, err := freshPlace(path)
	if err != nil {
		a.wrong("%v", err)
	}
	if err := a.err(); err != nil {
		return err
	}
	return p.writeNew(a, path, place)
}

// freshPlace returns the place of a file that is not there yet. The error says why
// none can be written there.
func freshPlace(path string) (atomicfile.Place, error) {
	if path == "" {
		return atomicfile.Place{}, fmt.Errorf("found %q as the site file; right would be its path, or %q for standard output", path, stdio)
	}
	if _, err := os.Lstat(path); err == nil {
		return atomicfile.Place{}, fmt.Errorf("%s is there already and stays as it is; right would be another name, or %q for standard output", path, stdio)
	}
	place, err := atomicfile.Find(path)
	if err != nil {
		return atomicfile.Place{}, err
	}
	return place, place.Check()
}

// writeNew writes the starter file, all of it or nothing, and says what comes next.
func (p program) writeNew(a *arguments, path string, place atomicfile.Place) (err error) {
	staged, err := atomicfile.Stage([]atomicfile.File{{Place: place, Data: []byte(starter.Text())}})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, staged.Discard()) }()
	var next strings.Builder
	fmt.Fprintf(&next, "wrote %s; change it in any text editor, then\n", path)
	for _, c := range [][2]string{
		{"check " + path, "says whether it is right"},
		{"compare " + path, "tells which choice risks what"},
		{"choose " + path, "finds the cheapest design that is safe enough"},
		{"help site", "has every key"},
	} {
		fmt.Fprintf(&next, "  arrayodds %-*s  %s\n", len("compare ")+utf8.RuneCountInString(path), c[0], c[1])
	}
	if _, err := io.WriteString(p.out, next.String()); err != nil {
		return err
	}
	return staged.Commit(a.ctx())
}
