//go:build linux || darwin || freebsd || netbsd || openbsd || dragonfly

package atomicfile

import (
	"io/fs"
	"os"
	"syscall"

	"golang.org/x/sys/unix"
)

// canLock says that files can be locked, and known again by their numbers: what a
// dead run left is told from what a living one needs.
const canLock = true

// tryLock locks a file for as long as it is open, and reports whether it could: no
// where another has locked it. The error is that there are no locks.
func tryLock(f *os.File) (bool, error) {
	for {
		switch err := unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB); err {
		case nil:
			return true, nil
		case unix.EINTR:
		case unix.EWOULDBLOCK:
			return false, nil
		default:
			return false, err
		}
	}
}

// identify returns what a file is known again by.
func identify(info fs.FileInfo) identity {
	id := identity{Size: info.Size(), Modified: info.ModTime().UnixNano()}
	if s, ok := info.Sys().(*syscall.Stat_t); ok {
		id.Device, id.Inode = uint64(s.Dev), uint64(s.Ino)
	}
	return id
}

// private reports whether a file is this user's and has one name, and nobody else
// can have written to it.
func private(info fs.FileInfo) bool {
	s, ok := info.Sys().(*syscall.Stat_t)
	return ok && int(s.Uid) == os.Geteuid() && s.Nlink == 1 && info.Mode().IsRegular() && info.Mode().Perm()&0o022 == 0
}

// keepOwner gives a file the owner and group of another, as far as this process may.
func keepOwner(f *os.File, other fs.FileInfo) {
	s, ok := other.Sys().(*syscall.Stat_t)
	if !ok {
		return
	}
	if f.Chown(int(s.Uid), int(s.Gid)) != nil {
		_ = f.Chown(-1, int(s.Gid)) // only root may give files away
	}
}
