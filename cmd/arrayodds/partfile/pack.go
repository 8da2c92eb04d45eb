package partfile

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
)

// Bounds of what a part takes that is read: bytes, and things in a list or a struct, of
// which the smallest take twenty times the memory of their bytes. A question has no more
// than some 20 000 systems, with two commas each.
const (
	mostSmall  = 32 << 20 // bytes that a part may have unpacked, however small it is
	mostRatio  = 64       // and that each byte of it may have beside
	mostCommas = 300_000
)

// mostUnpacked returns how many bytes a part may have unpacked that has so many.
func mostUnpacked(length int) int { return min(MostBytes, mostSmall+mostRatio*length) }

// packed returns text packed, so that it is unpacked again.
func packed(text []byte) (body bytes.Buffer, err error) {
	for _, level := range []int{gzip.DefaultCompression, gzip.HuffmanOnly} { // the last packs eightfold at most
		body.Reset()
		pack, err := gzip.NewWriterLevel(&body, level)
		if err != nil {
			return body, err
		}
		if _, err := pack.Write(text); err != nil {
			return body, err
		}
		if err := pack.Close(); err != nil {
			return body, err
		}
		if len(text) <= mostUnpacked(body.Len()) {
			break
		}
	}
	return body, nil
}

// unpacked returns what reads the text of a part, once it is known to be within bounds:
// that is looked at in a pass of its own, which takes no memory.
func unpacked(body []byte) (io.Reader, error) {
	pass, err := gzip.NewReader(bytes.NewReader(body))
	if err != nil {
		return nil, &DamagedError{err.Error()}
	}
	buffer := make([]byte, 64<<10)
	for length, commas := 0, 0; ; {
		n, err := pass.Read(buffer)
		length += n
		commas += bytes.Count(buffer[:n], []byte{','})
		switch {
		case length > mostUnpacked(len(body)):
			return nil, fmt.Errorf("is packed more than --part packs; right would be at most %d bytes in its %d", mostUnpacked(len(body)), len(body))
		case commas > mostCommas:
			return nil, errors.New("has more in it than a question has; right would be what --part wrote")
		case err == io.EOF:
			return gzip.NewReader(bytes.NewReader(body))
		case err != nil:
			return nil, &DamagedError{err.Error()}
		}
	}
}
