package workbook

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"path"
	"regexp"
	"strings"

	"github.com/xuri/excelize/v2"

	"arrayodds/array/schedule"
)

// maxMerged bounds the merged cells of a sheet.
const maxMerged = 10_000

// mergeElement is a merged range in the part of a sheet. The library tells of them
// only with its whole model of the sheet, which grows with its emptiness.
var mergeElement = regexp.MustCompile(`<(?:[^\s<>/:]*:)?mergeCell\s[^<>]*?ref\s*=\s*["']([A-Za-z]{1,3}[0-9]{1,7}):([A-Za-z]{1,3}[0-9]{1,7})["']`)

// archive is the parts of a workbook.
type archive struct {
	parts  map[string]*zip.File // by their paths
	sheets map[string]string    // paths by titles of sheets
	merged map[string][]schedule.Merged
}

func open(data []byte) (*archive, error) {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, err
	}
	a := &archive{parts: map[string]*zip.File{}, merged: map[string][]schedule.Merged{}}
	for _, part := range z.File {
		a.parts[part.Name] = part
	}
	a.sheets = a.sheetParts()
	return a, nil
}

// mergedIn returns the merged cells of a sheet, none where its part is not found.
// Several sheets may be of one part.
func (a *archive) mergedIn(title, place string) ([]schedule.Merged, *schedule.Fault) {
	name := a.sheets[title]
	if out, known := a.merged[name]; known || a.parts[name] == nil {
		return out, nil
	}
	in, err := unpacked(a.parts[name])
	if err != nil {
		return nil, nil // the library says so
	}
	all := mergeElement.FindAllSubmatch(in, maxMerged+1)
	if len(all) > maxMerged {
		return nil, fault(place, fmt.Sprintf("more than %d merged cells", maxMerged), "a sheet with the schedule alone")
	}
	var out []schedule.Merged
	for _, ref := range all {
		left, top, err := excelize.CellNameToCoordinates(string(ref[1]))
		right, bottom, err2 := excelize.CellNameToCoordinates(string(ref[2]))
		if err == nil && err2 == nil {
			out = append(out, schedule.Merged{Top: top - 1, Left: left - 1, Bottom: bottom - 1, Right: right - 1})
		}
	}
	a.merged[name] = out
	return out, nil
}

// relations is a part that says which parts another one names.
type relations struct {
	Of []struct {
		ID     string `xml:"Id,attr"`
		Type   string `xml:"Type,attr"`
		Target string `xml:"Target,attr"`
	} `xml:"Relationship"`
}

// sheetParts returns the paths of the parts that hold the sheets: the workbook lists
// its sheets by identifiers, and beside it stands which part has which.
func (a *archive) sheetParts() map[string]string {
	var root, ofBook relations
	var book struct {
		Sheets []struct {
			Name  string     `xml:"name,attr"`
			Attrs []xml.Attr `xml:",any,attr"`
		} `xml:"sheets>sheet"`
	}
	at := "xl/workbook.xml"
	if a.decode("_rels/.rels", &root) {
		for _, r := range root.Of {
			if strings.HasSuffix(r.Type, "/officeDocument") {
				at = resolved("", r.Target)
			}
		}
	}
	if !a.decode(at, &book) || !a.decode(path.Join(path.Dir(at), "_rels", path.Base(at)+".rels"), &ofBook) {
		return nil
	}
	targets := map[string]string{}
	for _, r := range ofBook.Of {
		targets[r.ID] = resolved(path.Dir(at), r.Target)
	}
	sheets := map[string]string{}
	for _, s := range book.Sheets {
		for _, attr := range s.Attrs {
			if target := targets[attr.Value]; attr.Name.Local == "id" && target != "" {
				sheets[s.Name] = target
			}
		}
	}
	return sheets
}

// resolved returns the path in the archive of a part that another one, in that
// folder, names.
func resolved(dir, target string) string {
	if whole, ok := strings.CutPrefix(target, "/"); ok {
		return path.Clean(whole)
	}
	return path.Join(dir, target)
}

// decode reads a part, and reports whether it could.
func (a *archive) decode(name string, into any) bool {
	part := a.parts[name]
	if part == nil {
		return false
	}
	in, err := unpacked(part)
	return err == nil && xml.Unmarshal(in, into) == nil
}
