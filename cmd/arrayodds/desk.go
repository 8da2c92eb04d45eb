package main

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"arrayodds/array/site"
	"arrayodds/cmd/arrayodds/desk"
	"arrayodds/cmd/arrayodds/export"
	"arrayodds/cmd/desk/session"

	"github.com/urfave/cli/v2"
)

// deskPage is the one format of a desk. It is not among those of export, since the
// engine that is within the page writes by these.
var deskPage = export.Format{Name: "html", Usage: "write the page to `FILE`", Always: true, Writers: []export.Writer{export.Of(desk.Write)}}

func (p program) deskCommand() *cli.Command {
	return &cli.Command{
		Name:      "desk",
		Usage:     "one page with the engine in it: the whole program in a browser",
		UsageText: "arrayodds desk [SITE.toml] [flags]",
		Description: `Writes one HTML file in which the whole program lives: a form of the site file,
answers that sharpen while one looks, and every command's pages and files. It opens
by a double click, on a phone too, without network, server or installation, and
nothing that is typed leaves the machine. A browser that lacks what the engine
needs says so.

SITE.toml is what it begins with, and the schedule of cameras and the logo that it
names. Its form and first figures are worked out here and written into the page, where
they stand before the engine runs, which then sharpens them. Without SITE.toml the page
offers a few invented sites. The page goes to the site
file's name with -desk.html, to desk.html without one, or to --html FILE.

EXAMPLE
   arrayodds desk terminal.toml`,
		Flags:  []cli.Flag{&cli.StringSliceFlag{Name: deskPage.Name, Usage: deskPage.Usage, DefaultText: sitePageText("desk")}},
		Action: action(p.runDesk),
	}
}

func (p program) runDesk(a *arguments) error {
	var in siteInput
	given := desk.Given{Name: "site.toml"}
	page := "desk.html"
	if a.NArg() > 0 {
		var err error
		if in, err = p.site(a, site.ChoicesOptional()); err != nil {
			return err
		}
		page = sitePage(in.path, "desk")
	}
	paths := a.StringSlice(deskPage.Name)
	if !a.IsSet(deskPage.Name) {
		paths = []string{page}
	}
	var outs []output
	for _, path := range paths {
		outs = append(outs, output{Format: deskPage, path: path})
	}
	p.checkOutputs(a, outs, in.inputs())
	if err := a.err(); err != nil {
		return err
	}
	if f := in.file(); f != nil {
		given.Text = string(in.text)
		if in.path != stdio {
			given.Name = filepath.Base(in.path)
		}
		var err error
		if given.Files, err = filesBeside(in.path, f.Schedule, f.Logo); err != nil {
			return err
		}
		first, err := session.NewFirst(a.ctx(), given.Text, given.Files)
		if err != nil {
			return err
		}
		given.First = &first
	}
	return writeResult(a.ctx(), p, outs, given, func(w io.Writer, g desk.Given) error {
		begins := "It begins with a choice of invented sites."
		if g.Text != "" {
			begins = "It begins with " + g.Name + "."
		}
		_, err := fmt.Fprintf(w, "A page with the engine in it, to open in a browser. %s\n", begins)
		return err
	})
}

// filesBeside reads what a site file names beside it, by the names that it gives; ""
// names nothing. That they can be read was seen when the site was.
func filesBeside(sitePath string, names ...string) (map[string][]byte, error) {
	files := map[string][]byte{}
	root, err := os.OpenRoot(siteDir(sitePath))
	if err != nil {
		return nil, err
	}
	defer root.Close() // only read from
	for _, name := range names {
		if name = strings.TrimSpace(name); name == "" {
			continue
		}
		if files[name], err = fs.ReadFile(root.FS(), name); err != nil {
			return nil, err
		}
	}
	return files, nil
}
