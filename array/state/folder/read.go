package folder

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/state"
	"arrayodds/array/toml"
	"arrayodds/array/unit"

	"golang.org/x/sync/errgroup"
)

// Array is one array of a folder.
type Array struct {
	Name   string // the path of its state file from the folder, without ".state.toml"
	SiteAt string // the path of its site file, from the folder
	Site   *site.File
	Choice int // by its index in the site's choices
	State  array.State
}

// Opened is a file that was read.
type Opened struct {
	Path string // from the folder
	Info fs.FileInfo
}

// Folder is what was read.
type Folder struct {
	Arrays []Array // by name
	Sites  int     // site files among those read
	Opened []Opened
	Links  []string // that were not followed: to folders, or out of this one
}

// Ending is what the names of state files end in.
const Ending = ".state.toml"

// readers is how many files are read at a time: most of it is parsing, and the machine
// has few processors.
const readers = 8

// Read reads a folder. name is what errors call it. The options are those of the site
// files; what these name is opened beside them. The error is of type [Errors], or that
// of the context.
func Read(ctx context.Context, fsys fs.FS, name string, opts ...site.Option) (*Folder, error) {
	found := &walk{fsys: fsys, folder: name}
	if err := found.run(ctx); err != nil {
		return nil, err
	}
	paths, problems := found.states, found.problems
	noting := &notingFS{FS: fsys}
	sites := &siteFiles{fsys: noting, folder: name, opts: opts}
	arrays, faults := make([]Array, len(paths)), make([]error, len(paths))
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(readers)
	for i, p := range paths {
		g.Go(func() error {
			arrays[i], faults[i] = one(noting, sites, name, p)
			return ctx.Err()
		})
	}
	if err := g.Wait(); err != nil {
		return nil, err
	}
	problems = append(problems, sites.faults()...)
	for _, err := range faults {
		if err != nil {
			problems = append(problems, err)
		}
	}
	if len(problems) > 0 {
		return nil, Errors(problems)
	}
	if len(arrays) == 0 {
		return nil, Errors{&FileError{name, fmt.Sprintf("no file in it has a name that ends in %q; right would be a folder of states, such as arrayodds now --example makes", Ending)}}
	}
	return &Folder{Arrays: arrays, Sites: sites.count(), Opened: noting.all(), Links: found.links}, nil
}

// one reads one state file with its site. There is no array and no error where only the
// site is at fault, which is said of the site.
func one(fsys fs.FS, sites *siteFiles, folder, p string) (Array, error) {
	f, err := fsys.Open(p)
	if err != nil {
		return Array{}, fileError(folder, p, err)
	}
	defer f.Close() // only read from
	d, err := state.Open(f, path.Join(folder, p))
	if err != nil {
		return Array{}, fileError(folder, p, err)
	}
	broken := d.Broken()
	of, wrong := siteOf(fsys, d, p)
	if broken && wrong != nil && wrong.Found == noSite { // it may be where the text is broken
		wrong = nil
	}
	s := (*site.File)(nil)
	if of != "" {
		s = sites.read(of)
	}
	if s == nil { // the rest is judged all the same
		mistakes := d.Mistakes()
		if wrong != nil && !slices.ContainsFunc(mistakes, func(e toml.Error) bool { return e.Key == wrong.Key }) {
			mistakes = append(mistakes, *wrong).ByLine()
		}
		if len(mistakes) > 0 {
			return Array{}, mistakes
		}
		return Array{}, nil
	}
	read, err := d.State(s.Site.Choices)
	if err != nil {
		return Array{}, err
	}
	return Array{Name: strings.TrimSuffix(p, Ending), SiteAt: of, Site: s, Choice: read.Choice, State: read.State}, nil
}

// noSite is what is found where there is no site file.
const noSite = "no site file"

// siteOf returns the path of the site file of a state file, from the folder, or what is
// wrong with it.
func siteOf(fsys fs.FS, d *state.Document, p string) (string, *toml.Error) {
	const right = `the path of a site file from the folder of this one, such as "../site.toml"`
	dir, base := path.Dir(p), strings.TrimSuffix(path.Base(p), Ending)
	named, place, given := d.Site()
	if given {
		place.Right = right
		of := path.Join(dir, named)
		switch {
		case named == "":
			return "", &place
		case !fs.ValidPath(of) || path.IsAbs(named) || strings.HasSuffix(of, Ending):
			if !strings.HasSuffix(of, Ending) {
				place.Right = "a site file in the folder that is read: this leads out of it"
			}
			return "", &place
		}
		if _, err := fs.Stat(fsys, of); err != nil {
			place.Found = fmt.Sprintf("%s, which cannot be read (%v)", unit.Quote(named), cause(err))
			return "", &place
		}
		return of, nil
	}
	beside := []string{path.Join(dir, base+".toml"), path.Join(dir, "site.toml")}
	for _, of := range beside {
		if _, err := fs.Stat(fsys, of); !errors.Is(err, fs.ErrNotExist) {
			return of, nil // where it cannot be read, that is said of it
		}
	}
	place.Found = noSite
	place.Right = fmt.Sprintf(`site = "PATH" in this file, or %s or site.toml beside it`, base+".toml")
	return "", &place
}
