package partfile

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"testing/fstest"

	"arrayodds/cmd/arrayodds/flags"
	"arrayodds/sim/divide"
)

// Part is one part of a question.
type Part struct {
	Question
	Number int // counted from 1
	Found  []divide.Entry
}

// Question is what the parts of one question share.
type Question struct {
	Command   string
	Flags     []Flag // that bear on the figures
	Site      string // path of the site file as it was given
	Files     []File // the site file, whose name is "", and those that it names
	Seed      uint64
	Blocks    int
	Parts     int
	Version   string // of the program
	Processor string // kinds of it may round otherwise
}

// Flag is a flag with its values; a switch that is on has none.
type Flag struct {
	Name   string
	Values []string
}

// File is a file that was read, by the name that the site file gives it.
type File struct {
	Name string
	Data []byte
}

// Text returns the site file.
func (q *Question) Text() []byte {
	if len(q.Files) == 0 {
		return nil
	}
	return q.Files[0].Data
}

// Beside returns the files that the site file names.
func (q *Question) Beside() fs.FS {
	all := fstest.MapFS{}
	for _, f := range q.Files {
		if f.Name != "" {
			all[f.Name] = &fstest.MapFile{Data: f.Data, Mode: 0o444}
		}
	}
	return all
}

// MostBytes is the most that a part may have, as it is and unpacked.
const MostBytes = 256 << 20

// format is the number of the format of parts. magic is what a file begins with, before
// that number.
const (
	format = 1
	magic  = "arrayodds part "
)

// Write writes a part to w.
func Write(w io.Writer, p Part) error {
	text, err := json.Marshal(p)
	if err != nil {
		return err
	}
	if len(text) > MostBytes {
		return fmt.Errorf("found %d bytes of a part; right would be at most %d: more parts, or less to simulate", len(text), MostBytes)
	}
	body, err := packed(text)
	if err != nil {
		return err
	}
	if _, err := fmt.Fprintf(w, "%s%d sha256 %x %d\n", magic, format, checksum(format, body.Bytes()), body.Len()); err != nil {
		return err
	}
	_, err = body.WriteTo(w)
	return err
}

// longestLine is longer than any first line.
const longestLine = 200

// checksum returns the checksum of the body of a file and of what its first line says.
func checksum(format int, body []byte) [sha256.Size]byte {
	h := sha256.New()
	fmt.Fprintf(h, "%d %d\n", format, len(body))
	_, _ = h.Write(body) // a hash takes all
	return [sha256.Size]byte(h.Sum(nil))
}

// DamagedError says that a file is a part of which something was changed or lost.
type DamagedError struct{ How string }

func (e *DamagedError) Error() string { return "is damaged: " + e.How }

// Read returns the part that a file has. An error is a [DamagedError], or says what the
// file is instead of a part.
func Read(data []byte) (p Part, err error) {
	start, _, ended := bytes.Cut(data[:min(len(data), longestLine)], []byte("\n"))
	line, body := string(start), data[min(len(data), len(start)+1):]
	var of, length int
	var sum []byte
	n, _ := fmt.Sscanf(line, magic+"%d sha256 %x %d", &of, &sum, &length)
	switch {
	case len(data) == 0:
		return p, &DamagedError{"it is empty"}
	case !begins(line):
		return p, errors.New("is no part; right would be a file that --part wrote")
	case n < 3 || !ended:
		return p, &DamagedError{"its first line is not whole"}
	case len(body) < length:
		return p, &DamagedError{fmt.Sprintf("it was cut short, %d of %d bytes are left", len(body), length)}
	case len(body) > length:
		return p, &DamagedError{fmt.Sprintf("it has %d bytes, and says %d", len(body), length)}
	}
	if found := checksum(of, body); !bytes.Equal(found[:], sum) || line != fmt.Sprintf("%s%d sha256 %x %d", magic, of, sum, length) {
		return p, &DamagedError{"its checksum is another one"}
	}
	if of != format {
		return p, fmt.Errorf("is a part in format %d, of another version of the program; this one reads format %d", of, format)
	}
	unpack, err := unpacked(body)
	if err != nil {
		return p, err
	}
	decode := json.NewDecoder(unpack)
	decode.DisallowUnknownFields()
	if err := decode.Decode(&p); err != nil {
		return Part{}, &DamagedError{err.Error()}
	}
	switch {
	case p.Parts > flags.MostParts:
		return Part{}, fmt.Errorf("is of a question in %d parts; right would be at most %d", p.Parts, flags.MostParts)
	case p.Blocks > flags.MostBlocks:
		return Part{}, fmt.Errorf("is of a question with %d blocks; right would be at most %d", p.Blocks, flags.MostBlocks)
	}
	if p.Parts < 1 || p.Number < 1 || p.Number > p.Parts || p.Blocks < 1 || len(p.Files) == 0 {
		return Part{}, &DamagedError{"it does not say which part of what it is"}
	}
	if err := p.names(); err != nil {
		return Part{}, err
	}
	p.Site = shown(p.Site) // it is printed, and a page may get its name
	return p, nil
}

// begins reports whether a first line begins as that of a part, or would but for a byte
// or two that were changed or for what was cut off.
func begins(line string) bool {
	wrong := 0
	for i := range min(len(line), len(magic)) {
		if line[i] != magic[i] {
			wrong++
		}
	}
	return wrong <= 2 && (len(line) >= len(magic) || wrong == 0 && strings.HasPrefix(magic, line))
}
