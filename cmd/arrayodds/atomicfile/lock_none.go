//go:build !(linux || darwin || freebsd || netbsd || openbsd || dragonfly)

package atomicfile

import (
	"errors"
	"io/fs"
	"os"
)

// canLock says that a dead run's files are not told from a living one's: they stay.
const canLock = false

func tryLock(*os.File) (bool, error) { return false, errors.ErrUnsupported }

func identify(fs.FileInfo) identity { return identity{} }

func private(fs.FileInfo) bool { return false }

func keepOwner(*os.File, fs.FileInfo) {}
