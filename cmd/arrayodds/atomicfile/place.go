package atomicfile

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// Place is where a path leads.
type Place struct {
	given      string      // the path, for errors
	path       string      // of a regular file: absolute, symbolic links followed
	info       fs.FileInfo // of what stands there, nil for nothing
	stream     bool
	descriptor int // of this process that the path names, −1 for none
}

// Find returns where a path leads. It returns an error if nothing can be written
// there.
func Find(path string) (Place, error) {
	p := Place{given: path, descriptor: -1}
	fd, ofProcess := descriptor(path)
	if ofProcess && fd >= 0 {
		return p.ofDescriptor(fd)
	}
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		link, here := os.Lstat(path)
		if here == nil && link.Mode().Type() != fs.ModeSymlink { // another run has just made it
			return Find(path)
		}
		if here == nil {
			return Place{}, fmt.Errorf("%s is a link to a file that is not there", path)
		}
		dir := filepath.Dir(path)
		if info, err := os.Stat(dir); err != nil || !info.IsDir() {
			return Place{}, fmt.Errorf("cannot write %s: there is no directory %s", path, dir)
		}
		p.path = absolute(path)
		return p, nil
	}
	switch {
	case err != nil:
		return Place{}, fmt.Errorf("cannot write %s: %w", path, reason(err))
	case info.IsDir():
		return Place{}, fmt.Errorf("%s is a directory, a file is wanted", path)
	}
	p.info = info
	switch kind := info.Mode().Type(); {
	case kind.IsRegular() && !ofProcess:
	case kind.IsRegular(),
		kind&(fs.ModeCharDevice|fs.ModeNamedPipe) != 0:
		p.stream = true
		return p, nil
	default:
		return Place{}, fmt.Errorf("%s is neither a file nor a pipe nor a terminal", path)
	}
	if info.Mode().Perm()&0o222 == 0 { // renaming would ignore this
		return Place{}, fmt.Errorf("%s is write-protected", path)
	}
	real, err := filepath.EvalSymlinks(path)
	if err != nil {
		return Place{}, fmt.Errorf("cannot write %s: %w", path, reason(err))
	}
	p.path = absolute(real)
	return p, nil
}

// PlaceOf returns where an open file leads, as a stream.
func PlaceOf(f *os.File) (Place, error) {
	info, err := f.Stat()
	return Place{given: f.Name(), info: info, stream: true, descriptor: -1}, err
}

// Stream reports whether the place is written to and not replaced.
func (p Place) Stream() bool { return p.stream }

// Null reports whether all that is written to the place is thrown away.
func (p Place) Null() bool {
	null, err := os.Stat(os.DevNull)
	return err == nil && p.stream && p.Holds(null)
}

// Same reports whether two places are one, by whatever names.
func (p Place) Same(q Place) bool {
	if p.info != nil && q.info != nil {
		return os.SameFile(p.info, q.info)
	}
	return p.info == nil && q.info == nil && p.path != "" && p.path == q.path
}

// Holds reports whether the file that info is of stands at the place.
func (p Place) Holds(info fs.FileInfo) bool {
	return p.info != nil && info != nil && os.SameFile(p.info, info)
}

// Check returns an error if no file can be written to the place. It leaves nothing
// behind.
func (p Place) Check() error {
	if p.stream {
		return nil
	}
	// Only the file system knows: it may be full, read-only or somebody else's.
	f, err := p.create()
	if err == nil {
		err = f.discard()
	}
	if err != nil {
		return fmt.Errorf("cannot write into %s: %w", filepath.Dir(p.given), reason(err))
	}
	return nil
}

// absolute returns the path that a file has or would have, with the symbolic links
// of its directory followed.
func absolute(path string) string {
	abs, err := filepath.Abs(path)
	if err != nil {
		return filepath.Clean(path)
	}
	if dir, err := filepath.EvalSymlinks(filepath.Dir(abs)); err == nil {
		return filepath.Join(dir, filepath.Base(abs))
	}
	return abs
}

// directories returns the directories of the files, each once.
func directories(files []*newFile) []string {
	var all []string
	for _, f := range files {
		all = append(all, filepath.Dir(f.place.path))
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// reason returns a file system's error without its path, which may be that of the
// temporary file. The caller names the path that the user knows.
func reason(err error) error {
	if p, ok := errors.AsType[*fs.PathError](err); ok {
		return p.Err
	}
	if l, ok := errors.AsType[*os.LinkError](err); ok {
		return l.Err
	}
	return err
}
