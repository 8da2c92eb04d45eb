package atomicfile

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
)

// File is the content that a place is to have.
type File struct {
	Place Place
	Data  []byte
}

// Staged is files that are written to disk and stand in their places once they are
// committed, and what is to be written to streams.
type Staged struct {
	files   []*newFile
	streams []File
}

// Stage writes all files to disk, without anybody seeing them. The error names the
// path that failed.
func Stage(files []File) (*Staged, error) {
	s := &Staged{}
	for _, file := range files {
		if file.Place.stream {
			s.streams = append(s.streams, file)
			continue
		}
		n, err := file.Place.create()
		if err == nil {
			s.files = append(s.files, n)
			err = n.fill(file.Data)
		}
		if err != nil {
			return nil, errors.Join(fmt.Errorf("%s: %w", file.Place.given, reason(err)), s.Discard())
		}
	}
	return s, nil
}

// WriteStreams writes the streams, one after the other. It waits for whoever reads
// from a pipe.
func (s *Staged) WriteStreams() error {
	for _, file := range s.streams {
		if err := file.Place.write(file.Data); err != nil {
			return err
		}
	}
	return nil
}

// Discard removes what is not committed.
func (s *Staged) Discard() error {
	var err error
	for _, n := range s.files {
		err = errors.Join(err, n.discard())
	}
	s.files = nil
	return err
}

// Commit puts all files in their places, or none. The error is that of the context
// where this is done before any file is in its place.
func (s *Staged) Commit(ctx context.Context) (err error) {
	defer func() { err = errors.Join(err, s.Discard()) }()
	if len(s.files) == 0 {
		return enter(ctx, func() error { return nil })
	}
	dirs := directories(s.files)
	locks, err := lockDirectories(ctx, dirs)
	if err != nil {
		return err
	}
	defer locks.release()
	return enter(ctx, func() error {
		if locks.all {
			for _, dir := range dirs {
				recoverDirectory(ctx, dir)
			}
		}
		if err := s.replace(); err != nil {
			return err
		}
		for _, dir := range dirs {
			syncDirectory(dir)
		}
		return nil
	})
}

// commits is what [Stop] and commits know of each other.
var commits struct {
	sync.Mutex
	done, stopped bool
}

// enter runs a commit, unless the context is done or [Stop] was called.
func enter(ctx context.Context, commit func() error) error {
	commits.Lock()
	defer commits.Unlock()
	if commits.stopped {
		return context.Canceled
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	err := commit()
	commits.done = commits.done || err == nil
	return err
}

// Stop makes the process ready to end at once. It waits for a commit that has begun,
// and lets no other begin; it removes temporary files. It reports whether anything
// was committed.
func Stop() (committed bool) {
	commits.Lock()
	defer commits.Unlock()
	commits.stopped = true
	named.Lock()
	defer named.Unlock()
	named.stopped = true
	for path := range named.paths {
		_ = os.Remove(path) // the process ends; the next run tries again
	}
	return commits.done
}

// step is called before each step of a commit. Tests end the process there.
var step = func(string) {}

// replace puts all files in their places, or none.
func (s *Staged) replace() error {
	u := &undo{}
	err := s.rename(u)
	if err == nil {
		step("count")
		err = u.drop()
	}
	if err != nil {
		if failed := u.roll(); failed != nil { // the record stays, and the next run tries again
			u.close()
			return errors.Join(err, failed)
		}
		_ = u.drop() // what it says is done
	}
	u.tidy()
	return err
}

// rename renames all files to the names that they are to have.
func (s *Staged) rename(u *undo) error {
	several := len(s.files) > 1
	if several {
		if err := u.plan(s.files); err != nil {
			return fmt.Errorf("cannot write into %s: %w", filepath.Dir(s.files[0].place.given), reason(err))
		}
	}
	// From here on a kill leaves names. So nothing waits for the disk any more.
	for _, n := range s.files {
		step("name")
		if err := n.name(); err != nil {
			return fmt.Errorf("%s: %w", n.place.given, reason(err))
		}
	}
	if several {
		if err := u.keep(s.files); err != nil {
			return fmt.Errorf("cannot write into %s: %w", filepath.Dir(s.files[0].place.given), reason(err))
		}
	}
	for _, n := range s.files {
		// What came there meanwhile may be no file.
		if now, err := os.Lstat(n.place.path); err == nil && !now.Mode().IsRegular() {
			return fmt.Errorf("%s is no file any more", n.place.given)
		}
	}
	for _, n := range s.files { // nothing but this, so that it is short
		step("rename")
		var err error
		if !canLock { // such systems do not rename open files
			err = n.file.Close()
		}
		if err = errors.Join(err, os.Rename(n.temp, n.place.path)); err != nil {
			return fmt.Errorf("%s: %w", n.place.given, reason(err))
		}
		if several {
			u.renamed = append(u.renamed, undoFile{Path: n.place.path, Fresh: n.fresh, Old: n.old})
		}
	}
	return nil
}
