package workbook

import (
	"archive/zip"
	"bytes"
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"arrayodds/array/hostile"
	"arrayodds/array/schedule"
)

// FuzzXLSX: whatever the file, the answer is rows with places, or faults.
func FuzzXLSX(f *testing.F) {
	f.Add(workbook(f, map[string][][]any{"S": {{"label", "count", "bitrate Mbit/s"}, {"Gate", 4, 6.1}, {"Total", 4}}}, nil))
	f.Add([]byte("PK\x03\x04"))
	for _, seed := range hostile.Seeds(hostile.Schedules(), ".xlsx") {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, in []byte) { judge(t, in) })
}

// FuzzXLSXParts: the same where the packing is right and its parts need not be,
// which changes to packed bytes seldom reach.
func FuzzXLSXParts(f *testing.F) {
	f.Add(`<row r="1"><c r="A1" t="inlineStr"><is><t>label</t></is></c><c r="B1" t="s"><v>0</v></c></row><row r="3"><c r="B3" s="1"><f>1+1</f><v>0.5</v></c></row>`,
		`<si><t>activity</t></si>`, `<xf numFmtId="0"/><xf numFmtId="9"/>`)
	f.Add(`<row><c><v>1</v></c></row><row r="1048576"><c r="XFD1048576" t="b"><v>1</v></c></row>`, `<si><r><t>x</t></r></si>`, ``)
	f.Add(`<row r="-1"><c r="A0" t="d"><v>1e999</v></c><c r="" t="e"><v>#REF!</v></c></row>`, ``, `<xf numFmtId="14"/>`)
	f.Add(`<row><c t="s"><v>-1</v></c></row></sheetData><mergeCells><mergeCell ref="A1:B2"/></mergeCells>`, `<si/>`, `<xf numFmtId="x"/>`)
	f.Fuzz(func(t *testing.T, rows, strings, styles string) {
		judge(t, packed(t, rows, strings, styles))
	})
}

func judge(t *testing.T, in []byte) {
	s, err := Read(in, "s.xlsx")
	if err == nil {
		if len(s.Rows) == 0 || len(s.Rows) > 10_000 {
			t.Fatalf("%d rows", len(s.Rows))
		}
		for _, r := range s.Rows {
			for key, c := range r.Cells {
				if r.Place == "" || c.Place == "" || key == "" || c.Number && strings.Trim(c.Text, "0123456789 .eE+-") != "" {
					t.Fatalf("%s: %+v in %q", key, c, r.Place)
				}
			}
		}
		return
	}
	var faults schedule.Faults
	if !errors.As(err, &faults) || len(faults) == 0 {
		t.Fatalf("%T %v", err, err)
	}
	for _, e := range faults {
		if e.Place == "" || e.Found == "" || e.Right == "" || strings.ContainsAny(e.Error(), "\n\r\x1b\x00") || !utf8.ValidString(e.Error()) {
			t.Fatalf("%+q", e)
		}
	}
}

// packed is a workbook of one sheet.
func packed(t *testing.T, rows, strings, styles string) []byte {
	t.Helper()
	return packedRest(t, rows, "", strings, styles)
}

// packedRest is a workbook of one sheet that has something behind its cells.
func packedRest(t *testing.T, rows, rest, strings, styles string) []byte {
	t.Helper()
	const (
		head = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>`
		main = `"http://schemas.openxmlformats.org/spreadsheetml/2006/main"`
		rels = `"http://schemas.openxmlformats.org/package/2006/relationships"`
		of   = `http://schemas.openxmlformats.org/officeDocument/2006/relationships`
		kind = `application/vnd.openxmlformats-officedocument.spreadsheetml.`
	)
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, p := range [][2]string{
		{"[Content_Types].xml", `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="` + kind + `sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="` + kind + `worksheet+xml"/><Override PartName="/xl/styles.xml" ContentType="` + kind + `styles+xml"/><Override PartName="/xl/sharedStrings.xml" ContentType="` + kind + `sharedStrings+xml"/></Types>`},
		{"_rels/.rels", `<Relationships xmlns=` + rels + `><Relationship Id="rId1" Type="` + of + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", `<workbook xmlns=` + main + ` xmlns:r="` + of + `"><sheets><sheet name="S" sheetId="1" r:id="rId1"/></sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships xmlns=` + rels + `><Relationship Id="rId1" Type="` + of + `/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="` + of + `/styles" Target="styles.xml"/><Relationship Id="rId3" Type="` + of + `/sharedStrings" Target="sharedStrings.xml"/></Relationships>`},
		{"xl/worksheets/sheet1.xml", `<worksheet xmlns=` + main + `><sheetData>` + rows + `</sheetData>` + rest + `</worksheet>`},
		{"xl/styles.xml", `<styleSheet xmlns=` + main + `><cellXfs>` + styles + `</cellXfs></styleSheet>`},
		{"xl/sharedStrings.xml", `<sst xmlns=` + main + `>` + strings + `</sst>`},
	} {
		w, err := z.Create(p[0])
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write([]byte(head + p[1])); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The packing above is right, so that what the target finds is in the parts.
func TestPacked(t *testing.T) {
	data := packed(t, `<row r="1"><c r="A1" t="inlineStr"><is><t>label</t></is></c><c r="B1" t="s"><v>0</v></c></row><row r="3"><c r="B3" s="1"><v>0.5</v></c></row>`,
		`<si><t>activity</t></si>`, `<xf numFmtId="0"/><xf numFmtId="9"/>`)
	s, err := Read(data, "s.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	if c := s.Rows[0].Cells["activity"]; c.Text != "50 %" || c.Place != `s.xlsx, sheet "S", cell B3` {
		t.Errorf("%+v", c)
	}
}
