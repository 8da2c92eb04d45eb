//go:build !unix

package atomicfile

import (
	"errors"
	"os"
)

// No path names a descriptor here.

func descriptor(string) (fd int, ok bool) { return 0, false }

func duplicate(int, string) (*os.File, error) { return nil, errors.ErrUnsupported }

func writable(*os.File) bool { return false }
