package workbook

import (
	"encoding/xml"
	"path"
	"strings"

	"arrayodds/array/schedule"
)

// book is a workbook that is within bounds.
type book struct {
	sheets   []part   // in the order of their tabs
	texts    []string // that cells refer to by number
	formats  []string // number formats by style of a cell
	date1904 bool     // dates count from 1904-01-01 and not from 1899-12-30
}

// part is a sheet.
type part struct {
	title string
	xml   []byte // nil where it is missing
}

// open opens a workbook that is within bounds; alone says what would be right where it
// is not.
func open(data []byte, name, alone string) (*book, error) {
	held, why := parts(data, name, alone)
	if why != nil {
		return nil, schedule.Faults{*why}
	}
	at := ""
	for _, r := range relationsOf(held, "") {
		if r.is("officeDocument") {
			at = r.path
		}
	}
	if held[at] == nil {
		return nil, schedule.Faults{*noWorkbook(name)}
	}
	b := &book{}
	if err := b.read(held, at); err != nil {
		return nil, schedule.Faults{*fault(name, "a file that cannot be read as a workbook ("+plainText(err)+")", "a workbook (.xlsx) that opens")}
	}
	return b, nil
}

// read reads all but the sheets; at is where the workbook's own part is.
func (b *book) read(held map[string][]byte, at string) error {
	var own struct {
		Properties struct {
			Date1904 bool `xml:"date1904,attr"`
		} `xml:"workbookPr"`
		Sheets []struct {
			Name  string     `xml:"name,attr"`
			Attrs []xml.Attr `xml:",any,attr"` // one is the relation's id, in a namespace
		} `xml:"sheets>sheet"`
	}
	if err := xml.Unmarshal(held[at], &own); err != nil {
		return err
	}
	b.date1904 = own.Properties.Date1904
	paths := map[string]string{}
	for _, r := range relationsOf(held, at) {
		paths[r.ID] = r.path
		var err error
		switch in := held[r.path]; {
		case in == nil:
		case r.is("sharedStrings"):
			b.texts, err = texts(in)
		case r.is("styles"):
			b.formats, err = formats(in)
		}
		if err != nil {
			return err
		}
	}
	for _, s := range own.Sheets {
		sheet := part{title: s.Name}
		for _, attr := range s.Attrs {
			if attr.Name.Local == "id" && attr.Name.Space != "" {
				sheet.xml = held[paths[attr.Value]]
			}
		}
		b.sheets = append(b.sheets, sheet)
	}
	return nil
}

// relation says which part another one refers to, and as what.
type relation struct {
	ID     string `xml:"Id,attr"`
	Type   string `xml:"Type,attr"`
	Target string `xml:"Target,attr"`
	path   string // of the part, as it is held
}

// is reports whether the part is of a kind, in either of the two families of names that
// kinds have.
func (r relation) is(kind string) bool { return strings.HasSuffix(r.Type, "/relationships/"+kind) }

// relationsOf returns the relations of a part, or of the whole package where that is "".
// What cannot be read has none.
func relationsOf(held map[string][]byte, of string) []relation {
	dir, base := path.Split(of)
	var all struct {
		Relations []relation `xml:"Relationship"`
	}
	if xml.Unmarshal(held[dir+"_rels/"+base+".rels"], &all) != nil {
		return nil
	}
	for i, r := range all.Relations {
		target, whole := strings.CutPrefix(r.Target, "/")
		if !whole {
			target = dir + target
		}
		all.Relations[i].path = strings.ToLower(path.Clean(target))
	}
	return all.Relations
}

// text is a text that may be in runs, each with its own font. How it is pronounced,
// which may stand beside it, is no part of it.
type text struct {
	Plain string `xml:"t"`
	Runs  []struct {
		Text string `xml:"t"`
	} `xml:"r"`
}

func (t text) String() string {
	s := t.Plain
	if len(t.Runs) > 0 {
		var b strings.Builder
		b.WriteString(s)
		for _, r := range t.Runs {
			b.WriteString(r.Text)
		}
		s = b.String()
	}
	return unescaped(s)
}

// texts returns the texts that cells refer to.
func texts(in []byte) ([]string, error) {
	var table struct {
		Items []text `xml:"si"`
	}
	if err := xml.Unmarshal(in, &table); err != nil {
		return nil, err
	}
	all := make([]string, len(table.Items))
	for i, item := range table.Items {
		all[i] = item.String()
	}
	return all, nil
}
