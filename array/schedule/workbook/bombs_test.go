package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strings"
	"testing"
)

// TestBombsAreRefused: a few kilobytes can be packed of what takes gigabytes once it
// is a model in memory, or hours once every sheet is looked for; such workbooks are
// refused before they are opened.
func TestBombsAreRefused(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"strings, all": {packed(t, "", strings.Repeat("<si/>", maxXML/5), ""), "more than 6 MiB of cells"},
		"styles, all":  {packed(t, "", "", strings.Repeat("<xf/>", maxXML/5)), "more than 6 MiB of cells"},
		"cells, all":   {packed(t, "<row>"+strings.Repeat("<c/>", maxXML/4)+"</row>", "", ""), "more than 6 MiB of cells"},
		"strings":      {packed(t, "", strings.Repeat("<si/>", maxModel+1), ""), "more than 60000 texts"},
		"styles":       {packed(t, "", "", strings.Repeat("<xf/>", maxModel+1)), "more than 60000 texts"},
		"cells":        {packed(t, "<row>"+strings.Repeat("<c/>", maxElements+1)+"</row>", "", ""), "more than 250000 cells"},
		"sheets":       {sheets(t, 40_000, 0), "more than 200 sheets"},
		"long sheets":  {sheets(t, 100, 30_000), "100 sheets, the longest of 30002"},
		"two bytes a character": {zipped(t, map[string]string{"xl/workbook.xml": "\xff\xfe" + strings.Join(strings.Split("<workbook/>", ""), "\x00") + "\x00"}),
			"a workbook that is damaged"},
		"parts": {zipped(t, func() map[string]string {
			all := map[string]string{}
			for i := range maxParts + 1 {
				all[fmt.Sprint(i)] = ""
			}
			return all
		}()), "more than 2000 parts"},
	} {
		_, err := Read(c.data, "s.xlsx")
		if err == nil || !strings.HasPrefix(err.Error(), "s.xlsx: found ") || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s, of %d bytes: %v\nwant %s", name, len(c.data), err, c.want)
		}
	}
}

// sheets is a workbook of many sheets, all of one part with so many cells.
func sheets(t testing.TB, count, cells int) []byte {
	t.Helper()
	var list strings.Builder
	for i := range count {
		fmt.Fprintf(&list, `<sheet name="S%d" sheetId="%d" r:id="rId1"/>`, i, i+1)
	}
	const relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	return zipped(t, map[string]string{
		"[Content_Types].xml":        `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
		"_rels/.rels":                `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="` + relations + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/_rels/workbook.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="` + relations + `/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
		"xl/workbook.xml":            `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="` + relations + `"><sheets>` + list.String() + `</sheets></workbook>`,
		"xl/worksheets/sheet1.xml":   `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>` + strings.Repeat("<c/>", cells) + `</sheetData></worksheet>`,
	})
}

// zipped packs parts.
func zipped(t testing.TB, parts map[string]string) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for name, text := range parts {
		w, err := z.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write([]byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
