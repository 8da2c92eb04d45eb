package record

import (
	"archive/zip"
	"bufio"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"path"
	"slices"
	"strings"
)

// member is one text to read: the file itself, one of an archive, or a sheet of a
// workbook.
type member struct {
	name  string
	open  func() (io.ReadCloser, error)
	first int32 // of a sheet, the day 0 of its dates, as days since 1970; else 0
}

// members looks at the first bytes of what is to be read: whether it is packed
// is told by them and not by its name.
func members(r io.Reader, name string, workbook Workbook) (iter.Seq[member], error) {
	buffered := bufio.NewReader(r)
	head, err := buffered.Peek(4)
	if err != nil && err != io.EOF {
		return nil, err
	}
	switch {
	case bytes.HasPrefix(head, []byte("\x1f\x8b")):
		return gzipped(buffered, name), nil
	case bytes.HasPrefix(head, []byte("PK\x03\x04")), bytes.HasPrefix(head, []byte("PK\x05\x06")):
		list, err := zipped(r, name, workbook)
		return slices.Values(list), err
	}
	return slices.Values([]member{{name, func() (io.ReadCloser, error) { return io.NopCloser(buffered), nil }, 0}}), nil
}

// zipped lists the texts of an archive by name. The list stands at the end of
// it, so that it cannot be read from a pipe.
func zipped(r io.Reader, name string, workbook Workbook) ([]member, error) {
	at, isFile := r.(interface {
		io.ReaderAt
		io.Seeker
	})
	size := int64(0)
	if isFile {
		var err error
		size, err = at.Seek(0, io.SeekEnd)
		isFile = err == nil
	}
	if !isFile {
		return nil, Errors{{File: name, Found: "a zip archive coming through a pipe", Right: "its file, or what is in it"}}
	}
	archive, err := zip.NewReader(at, size)
	if err != nil {
		return nil, damaged(name, 0, err)
	}
	if slices.ContainsFunc(archive.File, func(f *zip.File) bool { return f.Name == "[Content_Types].xml" }) {
		return sheetOf(io.NewSectionReader(at, 0, size), name, workbook)
	}
	var list []member
	for _, f := range archive.File {
		switch strings.ToLower(path.Ext(f.Name)) {
		case ".csv", ".tsv", ".txt":
		default:
			continue
		}
		// Some archivers add a shadow of each file.
		if f.FileInfo().IsDir() || strings.HasPrefix(f.Name, "__MACOSX/") || strings.HasPrefix(path.Base(f.Name), ".") {
			continue
		}
		inner := name + "/" + strings.Trim(fmt.Sprintf("%q", f.Name), `"`)
		if bomb(f.UncompressedSize64, f.CompressedSize64) {
			return nil, Errors{unpacksToo(inner)}
		}
		list = append(list, member{inner, f.Open, 0})
	}
	if len(list) == 0 {
		return nil, Errors{{File: name, Found: "an archive without a .csv, .tsv or .txt file", Right: "one with the record in it"}}
	}
	slices.SortStableFunc(list, func(a, b member) int { return cmp.Compare(a.name, b.name) })
	return list, nil
}

// Bounds of how many times its size a packed text may take unpacked, beyond the first
// bytes. Rows of any record pack to a hundredth at the least.
const (
	unpackedFree  = 16 << 20
	unpackedTimes = 300
)

func bomb(unpacked, packed uint64) bool {
	return unpacked > unpackedFree && (unpacked-unpackedFree)/unpackedTimes > packed
}

func unpacksToo(name string) Error {
	return Error{File: name, Found: fmt.Sprintf("packed data that unpacks to more than %d times its size", unpackedTimes), Right: "a record, packed or not"}
}

// damaged returns an error of reading as one of the input, unless it is one of the
// disk.
func damaged(name string, line int, err error) error {
	if _, ok := errors.AsType[*fs.PathError](err); ok {
		return err
	}
	if _, ok := errors.AsType[Errors](err); ok { // in words already
		return err
	}
	return Errors{{File: name, Line: line, Found: fmt.Sprintf("damaged data (%v)", err), Right: "the whole file, as it was packed"}}
}
