//go:build !linux

package atomicfile

import (
	"errors"
	"io/fs"
	"os"
)

// Every file has a name here.

func openWithoutName(string, fs.FileMode) (*os.File, error) { return nil, errors.ErrUnsupported }

func nameFile(*os.File, string) error { return errors.ErrUnsupported }
