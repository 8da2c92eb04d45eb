package atomicfile

import (
	"context"
	"crypto/rand"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"sync"
)

// newFileMode is the permission of a file that did not exist, before the umask.
const newFileMode = 0o644

// newFile is a file that is written and does not stand in its place yet.
type newFile struct {
	place   Place
	file    *os.File    // open and locked for as long as the run lives
	temp    string      // its temporary path, "" where it has none
	planned string      // the temporary path that it is to have, "" for any
	info    fs.FileInfo // once it is written
	old     string      // a second path of the file that it replaces, "" where it has none
	fresh   bool        // it replaces none
}

// leftName is a name that a run gives to a file for a while.
var leftName = regexp.MustCompile(`^\.arrayodds-[A-Z2-7]{26}\.(?:tmp|old|undo)$`)

// hiddenPath returns a new path in a directory that [leftName] matches.
func hiddenPath(dir, end string) string {
	return filepath.Join(dir, ".arrayodds-"+rand.Text()+end)
}

// openUnnamed is [openWithoutName]; in tests of other systems it fails.
var openUnnamed = openWithoutName

// create opens a new file in the directory of the place.
func (p Place) create() (*newFile, error) {
	dir, mode := filepath.Dir(p.path), fs.FileMode(newFileMode)
	if p.info != nil {
		mode = 0o600 // until it has the old file's
	}
	if f, err := openUnnamed(dir, mode); err == nil {
		return &newFile{place: p, file: f}, nil
	}
	f, err := openNamed(dir, mode)
	if err != nil {
		return nil, err
	}
	return &newFile{place: p, file: f, temp: f.Name()}, nil
}

// named are the temporary files of this process that have names.
var named struct {
	sync.Mutex
	paths   map[string]bool
	stopped bool // there are to be no more
}

// openNamed opens a new file with a temporary name, and locks it.
func openNamed(dir string, mode fs.FileMode) (*os.File, error) {
	named.Lock()
	defer named.Unlock()
	if named.stopped {
		return nil, context.Canceled
	}
	for {
		path := hiddenPath(dir, ".tmp")
		f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, mode)
		if err != nil {
			return nil, err
		}
		if named.paths == nil {
			named.paths = map[string]bool{}
		}
		named.paths[path] = true
		_, _ = tryLock(f) // where there are no locks, nobody takes it for a dead run's
		// Another run may have taken it for that before it was locked.
		now, err := os.Lstat(path)
		info, errOwn := f.Stat()
		if err == nil && errOwn == nil && os.SameFile(now, info) {
			return f, nil
		}
		delete(named.paths, path)
		if err := f.Close(); err != nil {
			return nil, err
		}
	}
}

// fill writes the content to disk, and gives the file the owner and the permissions
// of the one that it replaces.
func (n *newFile) fill(data []byte) error {
	if _, err := n.file.Write(data); err != nil {
		return err
	}
	if old := n.place.info; old != nil {
		keepOwner(n.file, old)
		if err := n.file.Chmod(old.Mode().Perm()); err != nil { // after the owner, whose change may take bits away
			return err
		}
	}
	if err := n.file.Sync(); err != nil {
		return err
	}
	var err error
	n.info, err = n.file.Stat()
	return err
}

// name gives the file a temporary name.
func (n *newFile) name() error {
	if n.temp != "" {
		return nil
	}
	path := n.planned
	if path == "" {
		path = hiddenPath(filepath.Dir(n.place.path), ".tmp")
	}
	err := nameFile(n.file, path)
	if err == nil {
		n.temp = path
	}
	return err
}

// discard closes the file and removes its temporary name.
func (n *newFile) discard() error {
	err := n.file.Close()
	if errors.Is(err, os.ErrClosed) {
		err = nil
	}
	if n.temp == "" {
		return err
	}
	named.Lock()
	defer named.Unlock()
	delete(named.paths, n.temp)
	return errors.Join(err, removeIfThere(n.temp))
}

// removeIfThere removes a file, which may have gone.
func removeIfThere(path string) error {
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}
