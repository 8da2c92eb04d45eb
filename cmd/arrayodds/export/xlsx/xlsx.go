package xlsx

import (
	"archive/zip"
	"fmt"
	"io"
	"strings"
)

// Sheet is a table.
type Sheet struct {
	Name    string // 31 characters at most, without []:*?/\ and not as another one's
	Columns []Column
	Rows    [][]any // a cell for each column: a string, an int, a finite float64, or nil for an empty one
}

// Column is what the cells of a column have in common.
type Column struct {
	Title  string  // stands above it
	Format string  // the number format, such as 0.00; empty for words, whose lines are wrapped
	Width  float64 // in characters of the default font
}

const head = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"

// Namespaces of ECMA-376 part 1 and 2, and kinds of parts and relations in them.
const (
	spreadsheet = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	packaged    = "http://schemas.openxmlformats.org/package/2006/"
	related     = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	kind        = "application/vnd.openxmlformats-officedocument.spreadsheetml."
)

// Write writes a workbook with these sheets, in their order.
func Write(w io.Writer, creator string, sheets ...Sheet) error {
	z := zip.NewWriter(w)
	put := func(name, text string) error {
		part, err := z.Create(name) // without a time
		if err != nil {
			return err
		}
		_, err = io.WriteString(part, head+text)
		return err
	}
	texts, styles := &texts{}, &styles{}
	var list, relations, types strings.Builder
	for i, s := range sheets {
		text, err := s.xml(i == 0, texts, styles)
		if err != nil {
			return fmt.Errorf("sheet %s: %w", s.Name, err)
		}
		if err := put(fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1), text); err != nil {
			return err
		}
		fmt.Fprintf(&list, `<sheet name="%s" sheetId="%d" r:id="rId%d"/>`, escaped(s.Name), i+1, i+1)
		relations.WriteString(relation(i+1, related+"/worksheet", fmt.Sprintf("worksheets/sheet%d.xml", i+1)))
		types.WriteString(override(fmt.Sprintf("/xl/worksheets/sheet%d.xml", i+1), kind+"worksheet+xml"))
	}
	n := len(sheets)
	relations.WriteString(relation(n+1, related+"/styles", "styles.xml") + relation(n+2, related+"/sharedStrings", "sharedStrings.xml"))
	for _, part := range [][2]string{
		{"xl/workbook.xml", `<workbook xmlns="` + spreadsheet + `" xmlns:r="` + related + `"><bookViews><workbookView/></bookViews><sheets>` + list.String() + `</sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", relationships(relations.String())},
		{"xl/styles.xml", styles.xml()},
		{"xl/sharedStrings.xml", texts.xml()},
		{"docProps/core.xml", `<cp:coreProperties xmlns:cp="` + packaged + `metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:creator>` + escaped(creator) + `</dc:creator></cp:coreProperties>`},
		{"_rels/.rels", relationships(relation(1, related+"/officeDocument", "xl/workbook.xml") + relation(2, packaged+"relationships/metadata/core-properties", "docProps/core.xml"))},
		{"[Content_Types].xml", `<Types xmlns="` + packaged + `content-types">` +
			`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>` +
			override("/xl/workbook.xml", kind+"sheet.main+xml") + types.String() + override("/xl/styles.xml", kind+"styles+xml") +
			override("/xl/sharedStrings.xml", kind+"sharedStrings+xml") + override("/docProps/core.xml", "application/vnd.openxmlformats-package.core-properties+xml") + `</Types>`},
	} {
		if err := put(part[0], part[1]); err != nil {
			return err
		}
	}
	return z.Close()
}

func relationships(all string) string {
	return `<Relationships xmlns="` + packaged + `relationships">` + all + `</Relationships>`
}

func relation(id int, kind, target string) string {
	return fmt.Sprintf(`<Relationship Id="rId%d" Type="%s" Target="%s"/>`, id, kind, target)
}

func override(part, kind string) string {
	return fmt.Sprintf(`<Override PartName="%s" ContentType="%s"/>`, part, kind)
}
