package atomicfile

import (
	"errors"
	"fmt"
	"os"
)

// ofDescriptor returns the place that a descriptor of this process leads to.
func (p Place) ofDescriptor(fd int) (Place, error) {
	f, err := duplicate(fd, p.given)
	if err != nil {
		return Place{}, fmt.Errorf("cannot write %s: there is no such open file", p.given)
	}
	defer f.Close() // nothing was written to it
	if !writable(f) {
		return Place{}, fmt.Errorf("cannot write %s: it is open for reading only", p.given)
	}
	if p.info, err = f.Stat(); err != nil {
		return Place{}, fmt.Errorf("cannot write %s: %w", p.given, reason(err))
	}
	p.stream, p.descriptor = true, fd
	return p, nil
}

// write writes to a stream.
func (p Place) write(data []byte) error {
	var f *os.File
	var err error
	if p.descriptor >= 0 { // opened anew, a file would be written from its beginning
		f, err = duplicate(p.descriptor, p.given)
	} else {
		f, err = os.OpenFile(p.given, os.O_WRONLY|os.O_APPEND, 0)
	}
	if err == nil {
		_, err = f.Write(data)
		err = errors.Join(err, f.Close())
	}
	if err != nil {
		return fmt.Errorf("%s: %w", p.given, reason(err))
	}
	return nil
}
