//go:build unix

package atomicfile

import (
	"os"
	"path/filepath"
	"regexp"
	"strconv"

	"golang.org/x/sys/unix"
)

// descriptors is a directory whose names are the descriptors of a process.
var descriptors = regexp.MustCompile(`^(?:/dev|/proc/(\d+)(?:/task/\d+)?)/fd/(\d{1,9})$`)

// mostLinks is how many links in a row are followed, as many as Linux does.
const mostLinks = 40

// descriptor returns the descriptor of this process that a path names, be it by
// links: /dev/stdout, /dev/fd/1, /proc/self/fd/1. It is −1 where the descriptor is
// another process's.
func descriptor(path string) (fd int, ok bool) {
	for range mostLinks {
		abs, err := filepath.Abs(path)
		if err != nil {
			return 0, false
		}
		dir, err := filepath.EvalSymlinks(filepath.Dir(abs)) // makes a number of /proc/self
		if err != nil {
			return 0, false
		}
		path = filepath.Join(dir, filepath.Base(abs))
		if m := descriptors.FindStringSubmatch(path); m != nil {
			if m[1] != "" && m[1] != strconv.Itoa(os.Getpid()) {
				return -1, true
			}
			fd, err = strconv.Atoi(m[2])
			return fd, err == nil
		}
		to, err := os.Readlink(path)
		if err != nil {
			return 0, false
		}
		if path = to; !filepath.IsAbs(to) {
			path = filepath.Join(dir, to)
		}
	}
	return 0, false
}

// duplicate returns a file that shares the place in it with the descriptor.
func duplicate(fd int, name string) (*os.File, error) {
	d, err := unix.FcntlInt(uintptr(fd), unix.F_DUPFD_CLOEXEC, 3)
	if err != nil {
		return nil, err
	}
	return os.NewFile(uintptr(d), name), nil
}

// writable reports whether a file was opened for writing.
func writable(f *os.File) bool {
	flags, err := unix.FcntlInt(f.Fd(), unix.F_GETFL, 0)
	return err == nil && flags&unix.O_ACCMODE != unix.O_RDONLY
}
