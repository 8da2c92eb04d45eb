package atomicfile

import (
	"fmt"
	"io/fs"
	"os"

	"golang.org/x/sys/unix"
)

// openWithoutName opens a new file that has no name: it is gone with its process. The
// error may be that the file system has no such files.
func openWithoutName(dir string, mode fs.FileMode) (*os.File, error) {
	f, err := os.OpenFile(dir, os.O_RDWR|unix.O_TMPFILE, mode)
	if err != nil {
		return nil, err
	}
	if _, err := os.Lstat(openPath(f)); err != nil { // it could be given no name
		_ = f.Close() // it is empty
		return nil, err
	}
	_, _ = tryLock(f) // where there are no locks, nobody takes it for a dead run's
	return f, nil
}

// nameFile gives a name to a file without one.
func nameFile(f *os.File, path string) error {
	err := unix.Linkat(unix.AT_FDCWD, openPath(f), unix.AT_FDCWD, path, unix.AT_SYMLINK_FOLLOW)
	if err != nil {
		return &os.LinkError{Op: "linkat", Old: f.Name(), New: path, Err: err}
	}
	return nil
}

func openPath(f *os.File) string { return fmt.Sprintf("/proc/self/fd/%d", f.Fd()) }
