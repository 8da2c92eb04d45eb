package workbook

import (
	"strings"
	"testing"
)

const headings = `<row r="1"><c r="A1" t="inlineStr"><is><t>label</t></is></c><c r="B1" t="inlineStr"><is><t>count</t></is></c></row>`

// TestDamagedSheets: what a sheet cannot have is a fault that names its row, and no
// value is lost in silence.
func TestDamagedSheets(t *testing.T) {
	for name, c := range map[string]struct{ rows, want string }{
		"no such text":    {`<row><c t="s"><v>1</v></c></row>`, `row 2: found cells that cannot be read (a cell has text 1 of 1)`},
		"a text before":   {`<row><c t="s"><v>-1</v></c></row>`, `row 2: found cells that cannot be read (a cell has text -1 of 1)`},
		"no number of it": {`<row><c t="s"><v>x</v></c></row>`, `row 2: found cells that cannot be read (a cell has text x of 1)`},
		"style":           {`<row><c s="x"><v>1</v></c></row>`, `row 2: found cells that cannot be read (a cell is of style x)`},
		"name":            {`<row><c r="7"><v>1</v></c></row>`, `row 2: found cells that cannot be read (a cell is called 7)`},
		"far column":      {`<row><c r="XFE2"><v>1</v></c></row>`, `row 2: found cells that cannot be read (a cell is called XFE2)`},
		"rows back":       {`<row r="3"/><row r="2"/>`, `row 4: found cells that cannot be read (it has the number 2)`},
		"row twice":       {`<row r="1"/>`, `row 2: found cells that cannot be read (it has the number 1)`},
		"far row":         {`<row r="1048577"/>`, `row 2: found cells that cannot be read (it has the number 1048577)`},
		"no row":          {`<row r="two"/>`, `row 2: found cells that cannot be read (it has the number two)`},
		"cut off":         {`<row><c><v>1`, `found cells that cannot be read (XML syntax error on line 1: `},
	} {
		_, err := Read(packed(t, headings+c.rows, "<si><t>Gate</t></si>", ""), "s.xlsx")
		if want := `s.xlsx, sheet "S"`; err == nil || !strings.HasPrefix(err.Error(), want) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v\nwant %s … %s", name, err, want, c.want)
		}
	}
}

// A part of another kind is no sheet, and a sheet without a part no empty one.
func TestPartsOfSheets(t *testing.T) {
	const relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	parts := func(at string) []byte {
		return zipped(t, map[string]string{
			"_rels/.rels":                `<Relationships><Relationship Id="a" Type="` + relations + `/officeDocument" Target="/xl/workbook.xml"/></Relationships>`,
			"xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="b" Type="` + relations + `/worksheet" Target="` + at + `"/></Relationships>`,
			"xl/workbook.xml":            `<workbook xmlns:r="` + relations + `"><sheets><sheet name="S" id="c" r:id="b"/></sheets></workbook>`,
			`xl\Sheet.XML`:               `<worksheet><sheetData>` + headings + `<row><c t="str"><v>Gate</v></c><c><v>4</v></c></row></sheetData></worksheet>`,
			"xl/sheet.bin":               `<worksheet><sheetData>` + headings + `<row><c t="str"><v>Gate</v></c><c><v>4</v></c></row></sheetData></worksheet>`,
		})
	}
	for _, at := range []string{"sheet.xml", "/xl/sheet.xml", "../xl/./Sheet.xml"} {
		if s, err := Read(parts(at), "s.xlsx"); err != nil || len(s.Rows) != 1 || s.Rows[0].Cells["count"].Text != "4" {
			t.Errorf("%s: %+v %v", at, s, err)
		}
	}
	for _, at := range []string{"sheet2.xml", "sheet.bin", "../../sheet.xml", ""} {
		if _, err := Read(parts(at), "s.xlsx"); err == nil || !strings.Contains(err.Error(), "the part of the sheet is missing") {
			t.Errorf("%s: %v", at, err)
		}
	}
	if _, err := Read(zipped(t, map[string]string{"a.xml": "<a/>"}), "s.xlsx"); err == nil || !strings.Contains(err.Error(), "a file that is no workbook") {
		t.Error(err)
	}
	broken := zipped(t, map[string]string{
		"_rels/.rels":     `<Relationships><Relationship Id="a" Type="` + relations + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml": "<workbook>",
	})
	if _, err := Read(broken, "s.xlsx"); err == nil || !strings.Contains(err.Error(), "a file that cannot be read as a workbook (XML syntax error") {
		t.Error(err)
	}
}
