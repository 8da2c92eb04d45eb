package folder

import (
	"context"
	"fmt"
	"io/fs"
	"path"
	"strings"
)

// Bounds of a folder.
const (
	mostDepth  = 16        // of folders within each other
	mostStates = 100_000   // state files
	mostFiles  = 1_000_000 // files and folders of any kind
)

// walk is a folder being walked.
type walk struct {
	fsys     fs.FS
	folder   string   // what errors call it
	states   []string // the paths of its state files, in order
	links    []string // that were not followed
	problems []error
}

func (w *walk) wrong(p, says string) {
	w.problems = append(w.problems, &FileError{path.Join(w.folder, p), says})
}

// run walks the folder. The error is that of the context.
func (w *walk) run(ctx context.Context) error {
	seen, fsys, wrong := 0, w.fsys, w.wrong
	err := fs.WalkDir(fsys, ".", func(p string, d fs.DirEntry, err error) error {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err != nil {
			w.problems = append(w.problems, fileError(w.folder, p, err))
			if d != nil && d.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		if seen++; seen > mostFiles {
			wrong("", fmt.Sprintf("more than %d files and folders in it; right would be a folder of states and sites alone", mostFiles))
			return fs.SkipAll
		}
		hidden := p != "." && strings.HasPrefix(d.Name(), ".")
		switch {
		case d.IsDir() && hidden:
			return fs.SkipDir
		case d.IsDir() && strings.Count(p, "/") >= mostDepth:
			wrong(p, fmt.Sprintf("folders more than %d deep; right would be fewer within each other", mostDepth))
			return fs.SkipDir
		case d.IsDir() || hidden:
			return nil
		case d.Type()&fs.ModeSymlink != 0:
			return w.link(p)
		case !strings.HasSuffix(p, Ending):
			return nil
		case !d.Type().IsRegular():
			wrong(p, "no ordinary file; right would be one")
			return nil
		}
		return w.add(p)
	})
	if err != nil && ctx.Err() == nil {
		w.problems = append(w.problems, fileError(w.folder, ".", err))
	}
	return ctx.Err()
}

// add adds a state file, up to as many as are read.
func (w *walk) add(p string) error {
	if len(w.states) == mostStates {
		w.wrong("", fmt.Sprintf("more than %d states in it; right would be a part of it at a time", mostStates))
		return fs.SkipAll
	}
	w.states = append(w.states, p)
	return nil
}

// link judges a link. One to a state file in the folder is read as that file; any other
// is not followed, which is noted where states could be behind it.
func (w *walk) link(p string) error {
	info, err := fs.Stat(w.fsys, p)
	state := strings.HasSuffix(p, Ending)
	switch {
	case err != nil && state:
		w.wrong(p, fmt.Sprintf("a link that cannot be followed (%v); right would be one to a file in this folder", cause(err)))
	case err != nil || info.IsDir() && !state:
		w.links = append(w.links, p)
	case info.Mode().IsRegular() && state:
		return w.add(p)
	case state:
		w.wrong(p, "no ordinary file; right would be one")
	}
	return nil
}
