package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"

	"arrayodds/array/toml"
)

// FileError is a file that cannot be read, or a folder.
type FileError struct{ Path, Says string }

// Error returns one line: path: what is wrong.
func (e *FileError) Error() string { return e.Path + ": " + e.Says }

// fileError returns the error of a file that could not be read.
func fileError(folder, p string, err error) *FileError {
	return &FileError{path.Join(folder, p), cause(err).Error()}
}

// cause returns an error without the path that it names itself.
func cause(err error) error {
	if wrapped, ok := errors.AsType[*fs.PathError](err); ok {
		return wrapped.Err
	}
	return err
}

// Errors is what is wrong with a folder: of each file an error of type [toml.Errors] or
// a [FileError]. What is wrong with site files comes first, each said once.
type Errors []error

// mostLines bounds what is said: a reader of more would mend none before the next try.
const mostLines = 100

// Lines returns a line for each thing that is wrong, at most 100; the last one then says
// how many more there are, and in how many files.
func (e Errors) Lines() (lines []string) {
	more, files := 0, 0
	for _, err := range e {
		own := []string{err.Error()}
		if errs, ok := errors.AsType[toml.Errors](err); ok {
			own = strings.Split(errs.Error(), "\n")
		}
		room := min(len(own), mostLines-len(lines))
		lines = append(lines, own[:room]...)
		if room < len(own) {
			more += len(own) - room
			files++
		}
	}
	if more > 0 {
		lines = append(lines, fmt.Sprintf("%d errors more in %d files; right would be to mend those above first", more, files))
	}
	return lines
}

// Error returns the lines.
func (e Errors) Error() string { return strings.Join(e.Lines(), "\n") }
