package hostile

import (
	"fmt"
	"strings"
)

// Schedules returns hostile schedules of cameras.
func Schedules() []Input {
	const (
		csv      = "schedule.csv"
		headings = "label,count,bitrate,retention\n"
		row      = ",2,6 Mbit/s,30 d\n"
	)
	refused := func(name string, size int, make func(int) []byte) Input { return Input{name, csv, make, size, false} }
	workbook := func(name string, size int, make func(n int) book) Input {
		return Input{name, "schedule.xlsx", func(n int) []byte { return make(n).packed() }, size, false}
	}
	again := func(s string) func(n int) string { return func(n int) string { return strings.Repeat(s, n) } }
	sheet := func(cells func(int) string) func(int) book {
		return func(n int) book { return book{sheets: 1, cells: cells(n)} }
	}
	strs := func(items func(int) string) func(int) book {
		return func(n int) book { return book{sheets: 1, strings: items(n)} }
	}
	styles := func(items func(int) string) func(int) book {
		return func(n int) book { return book{sheets: 1, styles: items(n)} }
	}
	return []Input{
		refused("a wide row", 8_000_000, text(headings, ",", "")),
		refused("rows", 300_000, text(headings, "a"+row, "")),
		refused("mistakes", 9_999, text(headings, "a,x,6 Mbit/s,30 q\n", "")),
		refused("blank rows", 16_000_000, text("", "\n", "")),
		refused("columns", 9_999, text("", strings.Repeat(",", 255)+"\n", "")),
		refused("words", 9_999, text("", strings.Repeat("x,", 255)+"\n", "")),
		refused("quotes", 4_000_000, text(headings, "\"", "")),
		refused("a quote over lines", 16_000_000, text(headings+"\"", "\n", "")),
		refused("a long cell", 4_000_000, text(headings, "a", row)),
		refused("long cells", 9_999, text(headings, strings.Repeat("a", 1600)+row, "")),
		refused("headings", 250, text("label,count", ",label", "\na\n")),
		refused("a long number", 900, text(headings+"a,", "9", ",6 Mbit/s,30 d\n")),
		refused("NULs", 4_000_000, text(headings, "\x00", "")),
		refused("no UTF-8", 4_000_000, text(headings, "\xff", "")),
		refused("too long", 17_000_000, text(headings, "\n", "")),
		{"all groups", csv, numbered(headings, func(i int) string { return fmt.Sprint("g", i, row) }, ""), 1_000, true},
		workbook("sheets of one part", 40_000, func(n int) book { return book{sheets: n} }),
		workbook("sheets", 10_000, func(n int) book { return book{sheets: n, own: true} }),
		workbook("long sheets of one part", 150, func(n int) book { return book{sheets: n, cells: strings.Repeat("<c/>", 200_000)} }),
		workbook("parts", 30_000, func(n int) book { return book{sheets: 1, more: n} }),
		workbook("strings", 400_000, strs(again("<si/>"))),
		workbook("a string of many runs", 400_000, strs(func(n int) string { return "<si>" + strings.Repeat("<r/>", n) + "</si>" })),
		workbook("strings at the bound", 59_000, strs(again("<si/>"))),
		workbook("styles", 400_000, styles(again("<xf/>"))),
		workbook("styles at the bound", 59_000, styles(again("<xf/>"))),
		workbook("cells", 500_000, sheet(again("<c/>"))),
		workbook("cells at the bound", 240_000, sheet(again("<c/>"))),
		workbook("rows", 400_000, sheet(again("<row/>"))),
		workbook("far cells", 9_000, sheet(again(`<row><c r="XFD1"/></row>`))),
		workbook("a far row", 1, sheet(again(`<row r="1048576"><c><v>1</v></c></row>`))),
		workbook("merged cells", 100_000, sheet(func(n int) string { return "</sheetData><mergeCells>" + strings.Repeat(`<mergeCell ref="A1:B2"/>`, n) })),
		workbook("nested elements", 400_000, sheet(again("<a>"))),
		workbook("a long cell", 5_000_000, sheet(func(n int) string {
			return `<row><c t="inlineStr"><is><t>` + strings.Repeat("x", n) + `</t></is></c></row>`
		})),
		workbook("blanks, packed", 10_000_000, sheet(again(" "))),
	}
}

// book is what a workbook is made of.
type book struct {
	sheets                 int
	own                    bool // each sheet is a part of its own
	more                   int  // empty parts beside
	cells, strings, styles string
}

func (b book) packed() []byte {
	const (
		rels = "http://schemas.openxmlformats.org/package/2006/relationships"
		of   = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
		main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	)
	relation := func(id, kind, target string) string {
		return fmt.Sprintf(`<Relationship Id="%s" Type="%s/%s" Target="%s"/>`, id, of, kind, target)
	}
	parts := map[string][]byte{
		"[Content_Types].xml":  []byte(`<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`),
		"_rels/.rels":          []byte(`<Relationships xmlns="` + rels + `">` + relation("rId1", "officeDocument", "xl/workbook.xml") + `</Relationships>`),
		"xl/styles.xml":        []byte(`<styleSheet xmlns="` + main + `"><cellXfs>` + b.styles + `</cellXfs></styleSheet>`),
		"xl/sharedStrings.xml": []byte(`<sst xmlns="` + main + `">` + b.strings + `</sst>`),
	}
	var list, related strings.Builder
	for i := range b.sheets {
		at := 1
		if b.own {
			at = i + 1
		}
		fmt.Fprintf(&list, `<sheet name="S%d" sheetId="%d" r:id="r%d"/>`, i, i+1, at)
		if name := fmt.Sprintf("worksheets/sheet%d.xml", at); parts["xl/"+name] == nil {
			related.WriteString(relation(fmt.Sprint("r", at), "worksheet", name))
			parts["xl/"+name] = []byte(`<worksheet xmlns="` + main + `"><sheetData>` + b.cells + `</sheetData></worksheet>`)
		}
	}
	related.WriteString(relation("s", "styles", "styles.xml") + relation("t", "sharedStrings", "sharedStrings.xml"))
	parts["xl/workbook.xml"] = []byte(`<workbook xmlns="` + main + `" xmlns:r="` + of + `"><sheets>` + list.String() + `</sheets></workbook>`)
	parts["xl/_rels/workbook.xml.rels"] = []byte(`<Relationships xmlns="` + rels + `">` + related.String() + `</Relationships>`)
	for i := range b.more {
		parts[fmt.Sprint("x", i)] = nil
	}
	return packed(parts)
}
