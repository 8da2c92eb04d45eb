package workbook

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"path"
	"strings"

	"arrayodds/array/pattern"

	"arrayodds/array/schedule"
)

// Bounds of a workbook, unpacked. They are looked at before anything is made of it.
const (
	maxUnpacked = 64 << 20
	maxXML      = 6 << 20
	maxParts    = 2_000
	maxSheets   = 200
	maxModel    = 60_000  // elements outside of the sheets
	maxElements = 250_000 // in all
	// maxSearched bounds the sheets times the elements of the longest, since several
	// sheets may be of one part, which is read for each.
	maxSearched = 2_000_000
)

// parts unpacks the parts of a workbook that are XML, by their paths in small letters.
// No part is unpacked before the sizes of all are within bounds, and none further than
// the size that it says it has. alone says what would be right where it is too much.
func parts(data []byte, name, alone string) (map[string][]byte, *schedule.Fault) {
	wrong := func(found string) (map[string][]byte, *schedule.Fault) { return nil, fault(name, found, alone) }
	if entries(data) > maxParts {
		return wrong(fmt.Sprintf("a workbook of more than %d parts", maxParts))
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, noWorkbook(name)
	}
	if len(z.File) > maxParts {
		return wrong(fmt.Sprintf("a workbook of more than %d parts", maxParts))
	}
	var all, text uint64
	var xml []*zip.File
	held := map[string][]byte{}
	for _, part := range z.File {
		all += min(part.UncompressedSize64, maxUnpacked+1)
		if e := strings.ToLower(path.Ext(part.Name)); e == ".xml" || e == ".rels" {
			text += min(part.UncompressedSize64, maxUnpacked+1)
			xml = append(xml, part)
		}
	}
	if all > maxUnpacked || text > maxXML {
		return wrong(fmt.Sprintf("a workbook of more than %d MiB of cells or %d MiB in all, unpacked", maxXML>>20, maxUnpacked>>20))
	}
	elements, model, sheets, longest := 0, 0, 0, 0
	for _, part := range xml {
		in, err := unpacked(part)
		if err != nil {
			return nil, fault(name, "a workbook that is damaged", "a workbook (.xlsx) that opens")
		}
		path := strings.ToLower(strings.ReplaceAll(part.Name, `\`, "/")) // as some programs pack them
		held[path] = in
		n := bytes.Count(in, []byte("<")) - bytes.Count(in, []byte("</")) - bytes.Count(in, []byte("<!")) - bytes.Count(in, []byte("<?"))
		if elements += n; !strings.HasPrefix(path, "xl/worksheets/") {
			model += n
			sheets += len(sheetElement().FindAllIndex(in, maxSheets+1))
		} else {
			longest = max(longest, n)
		}
		switch {
		case sheets > maxSheets:
			return wrong(fmt.Sprintf("a workbook of more than %d sheets", maxSheets))
		case model > maxModel:
			return wrong(fmt.Sprintf("a workbook of more than %d texts, styles and names", maxModel))
		case elements > maxElements:
			return wrong(fmt.Sprintf("a workbook of more than %d cells and texts", maxElements))
		}
	}
	if sheets*longest > maxSearched {
		return wrong(fmt.Sprintf("a workbook of %d sheets, the longest of %d cells and texts", sheets, longest))
	}
	return held, nil
}

// noWorkbook returns the fault of a file that is packed as nothing or as something else.
func noWorkbook(name string) *schedule.Fault {
	return fault(name, "a file that is no workbook", "a workbook (.xlsx) without a password")
}

var sheetElement = pattern.Of(`<(?:[^\s<>/:]*:)?sheet[\s/>]`)

// unpacked returns what a part holds, which is no more than it says it is.
func unpacked(part *zip.File) ([]byte, error) {
	in, err := part.Open()
	if err != nil {
		return nil, err
	}
	defer in.Close() // only read from
	held := make([]byte, part.UncompressedSize64)
	if _, err := io.ReadFull(in, held); err != nil {
		return nil, err
	}
	if bytes.IndexByte(held, 0) >= 0 { // two bytes a character, which no program writes
		return nil, zip.ErrFormat
	}
	return held, nil
}

// entries returns how many parts an archive says that it has; 0 where it does not say
// so, which is for its reader to judge. That would list all of them first.
func entries(data []byte) int {
	const total = 10 // where their number stands in the record at the end
	at := bytes.LastIndex(data, []byte("PK\x05\x06"))
	if at < 0 || at+total+2 > len(data) {
		return 0
	}
	return int(binary.LittleEndian.Uint16(data[at+total:]))
}
