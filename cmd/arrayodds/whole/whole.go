// Package whole writes files whole or not at all.
//
// [Check] says before a long run whether a file can be put where it is wanted.
// [Write] puts several files in place together: each is written beside its
// place under a name of its own, brought to disk, and only when all are there
// are they renamed into place. Whoever looks sees the old file or the new one,
// never half of one; on an error or a cancelled context the old files stand and
// nothing else is left behind.
//
// A device or a pipe (/dev/null, a shell's process substitution) cannot be
// replaced and is written to as it is. A symbolic link stays a link: what it
// points to is replaced.
package whole

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// File is what is to stand at a path.
type File struct {
	Path string
	Data []byte
}

// newFile is the permission of a file that was not there; the umask takes its
// share.
const newFile = 0o644

// Check returns an error where a file cannot be put at the path.
func Check(path string) error {
	p, err := placeOf(path)
	if err != nil {
		return err
	}
	if p.special {
		return nil
	}
	// Only the file system knows: it may be full, read-only or somebody else's.
	f, err := p.beside()
	if err != nil {
		return fmt.Errorf("cannot write into %s: %w", filepath.Dir(p.path), reason(err))
	}
	return errors.Join(f.Close(), os.Remove(f.Name()))
}

// Same says whether two paths lead to one file, there already or not.
func Same(a, b string) bool {
	ia, errA := os.Stat(a)
	ib, errB := os.Stat(b)
	if errA == nil && errB == nil {
		return os.SameFile(ia, ib)
	}
	return errA != nil && errB != nil && absolute(a) == absolute(b)
}

// absolute is where a file that is not there would be, links of its directory
// followed.
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

// Write puts all files in place, or none.
func Write(ctx context.Context, files []File) (err error) {
	type pending struct{ from, to string }
	var ready []pending
	defer func() {
		for _, p := range ready { // those in place are no longer under this name
			if e := os.Remove(p.from); e != nil && !errors.Is(e, fs.ErrNotExist) {
				err = errors.Join(err, e)
			}
		}
	}()
	var specials []File
	for _, file := range files {
		p, err := placeOf(file.Path)
		if err != nil {
			return err
		}
		if p.special {
			specials = append(specials, file)
			continue
		}
		f, err := p.beside()
		if err != nil {
			return fmt.Errorf("%s: %w", file.Path, reason(err))
		}
		ready = append(ready, pending{f.Name(), p.path})
		_, err = f.Write(file.Data)
		if err == nil {
			err = f.Sync()
		}
		if err = errors.Join(err, f.Close()); err != nil {
			return fmt.Errorf("%s: %w", file.Path, reason(err))
		}
	}
	for _, file := range specials {
		if err := writeInto(file); err != nil {
			return fmt.Errorf("%s: %w", file.Path, reason(err))
		}
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	for _, p := range ready {
		if err := os.Rename(p.from, p.to); err != nil {
			return fmt.Errorf("%s: %w", p.to, reason(err))
		}
	}
	return nil
}

// place is where a file will stand.
type place struct {
	path    string      // links followed
	special bool        // a device or a pipe
	mode    fs.FileMode // of the file that is there, or of a new one
	exists  bool
}

func placeOf(path string) (place, error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		if _, err := os.Lstat(path); err == nil {
			return place{}, fmt.Errorf("%s is a link to a file that is not there", path)
		}
		dir := filepath.Dir(path)
		if info, err := os.Stat(dir); err != nil || !info.IsDir() {
			return place{}, fmt.Errorf("cannot write %s: there is no directory %s", path, dir)
		}
		return place{path: path, mode: newFile}, nil
	}
	switch {
	case err != nil:
		return place{}, fmt.Errorf("cannot write %s: %w", path, reason(err))
	case info.IsDir():
		return place{}, fmt.Errorf("%s is a directory, a file is wanted", path)
	case !info.Mode().IsRegular():
		return place{path: path, special: true}, nil
	case info.Mode().Perm()&0o222 == 0: // renaming would ignore this
		return place{}, fmt.Errorf("%s is write-protected", path)
	}
	real, err := filepath.EvalSymlinks(path)
	if err != nil {
		return place{}, fmt.Errorf("cannot write %s: %w", path, reason(err))
	}
	return place{path: real, mode: info.Mode().Perm(), exists: true}, nil
}

// beside opens a new file in the directory of the place, with the permissions
// that the file in place is to have.
func (p place) beside() (*os.File, error) {
	name := filepath.Join(filepath.Dir(p.path), ".arrayodds-"+rand.Text()+".tmp")
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, newFile)
	if err != nil || !p.exists {
		return f, err
	}
	if err := f.Chmod(p.mode); err != nil {
		return nil, errors.Join(err, f.Close(), os.Remove(name))
	}
	return f, nil
}

func writeInto(file File) error {
	f, err := os.OpenFile(file.Path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.Write(file.Data)
	return errors.Join(err, f.Close())
}

// reason leaves out the path of a file system's error, which may be the
// temporary one; what calls it names the path that the user knows.
func reason(err error) error {
	if p, ok := errors.AsType[*fs.PathError](err); ok {
		return p.Err
	}
	if l, ok := errors.AsType[*os.LinkError](err); ok {
		return l.Err
	}
	return err
}
