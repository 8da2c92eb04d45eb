// Package atomicfile writes several files, all or none.
//
// [Write] writes each file to a temporary file in the directory where it is to
// stand, syncs it to disk, and renames the temporary files once all of them are
// written. A reader sees the old file or the new one, never a part of one. On an
// error, or where the context is cancelled, the old files are left as they were
// and the temporary files are removed.
//
// [Check] reports before a long run whether a file can be written to a path.
//
// A device or a pipe (/dev/null, a shell's process substitution) cannot be
// replaced, so it is written to directly. A symbolic link stays a link: the file
// that it points to is replaced.
package atomicfile

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// File is the content that a path is to have.
type File struct {
	Path string
	Data []byte
}

// newFileMode is the permission of a file that did not exist, before the umask.
const newFileMode = 0o644

// Check returns an error if no file can be written to the path. It leaves nothing
// behind.
func Check(path string) error {
	p, err := resolve(path)
	if err != nil {
		return err
	}
	if p.special {
		return nil
	}
	// Only the file system knows: it may be full, read-only or somebody else's.
	f, err := p.tempFile()
	if err != nil {
		return fmt.Errorf("cannot write into %s: %w", filepath.Dir(p.path), reason(err))
	}
	return errors.Join(f.Close(), os.Remove(f.Name()))
}

// Same reports whether two paths lead to the same file, which need not exist.
func Same(a, b string) bool {
	ia, errA := os.Stat(a)
	ib, errB := os.Stat(b)
	if errA == nil && errB == nil {
		return os.SameFile(ia, ib)
	}
	return errA != nil && errB != nil && absolute(a) == absolute(b)
}

// absolute returns the path that a file that does not exist would have, with the
// symbolic links of its directory followed.
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

// Write writes all files, or none. The error names the path that failed. Renaming
// comes last, so that one that fails after others leaves those renamed; devices and
// pipes are written to before it.
func Write(ctx context.Context, files []File) (err error) {
	type pending struct{ from, to string }
	var ready []pending
	defer func() {
		for _, p := range ready { // a renamed one no longer has this name
			if e := os.Remove(p.from); e != nil && !errors.Is(e, fs.ErrNotExist) {
				err = errors.Join(err, e)
			}
		}
	}()
	var specials []File
	for _, file := range files {
		p, err := resolve(file.Path)
		if err != nil {
			return err
		}
		if p.special {
			specials = append(specials, file)
			continue
		}
		f, err := p.tempFile()
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

// target is where a file is to be written.
type target struct {
	path    string      // symbolic links followed
	special bool        // a device or a pipe
	mode    fs.FileMode // of the existing file, or of a new one
	exists  bool
}

// resolve returns where a path leads, and an error if it cannot be written to.
func resolve(path string) (target, error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		if _, err := os.Lstat(path); err == nil {
			return target{}, fmt.Errorf("%s is a link to a file that is not there", path)
		}
		dir := filepath.Dir(path)
		if info, err := os.Stat(dir); err != nil || !info.IsDir() {
			return target{}, fmt.Errorf("cannot write %s: there is no directory %s", path, dir)
		}
		return target{path: path, mode: newFileMode}, nil
	}
	switch {
	case err != nil:
		return target{}, fmt.Errorf("cannot write %s: %w", path, reason(err))
	case info.IsDir():
		return target{}, fmt.Errorf("%s is a directory, a file is wanted", path)
	case !info.Mode().IsRegular():
		return target{path: path, special: true}, nil
	case info.Mode().Perm()&0o222 == 0: // renaming would ignore this
		return target{}, fmt.Errorf("%s is write-protected", path)
	}
	real, err := filepath.EvalSymlinks(path)
	if err != nil {
		return target{}, fmt.Errorf("cannot write %s: %w", path, reason(err))
	}
	return target{path: real, mode: info.Mode().Perm(), exists: true}, nil
}

// tempFile opens a new file in the directory of the target, with the permissions
// that the target is to have.
func (p target) tempFile() (*os.File, error) {
	name := filepath.Join(filepath.Dir(p.path), ".arrayodds-"+rand.Text()+".tmp")
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, newFileMode)
	if err != nil || !p.exists {
		return f, err
	}
	if err := f.Chmod(p.mode); err != nil {
		return nil, errors.Join(err, f.Close(), os.Remove(name))
	}
	return f, nil
}

// writeInto writes to a device or a pipe.
func writeInto(file File) error {
	f, err := os.OpenFile(file.Path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.Write(file.Data)
	return errors.Join(err, f.Close())
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
