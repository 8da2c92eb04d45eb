package workbook

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"arrayodds/array/schedule"
)

// What a sheet has at most: ECMA-376 says nothing of it, programs stop there.
const (
	lastRow    = 1 << 20
	lastColumn = 1 << 14
)

// maxMerged bounds the merged cells of a sheet.
const maxMerged = 10_000

// cell is a cell as it is stored.
type cell struct {
	text   string
	number bool
	format string // of a number
}

// sheetReader goes through the part of a sheet.
type sheetReader struct {
	book  *book
	place string
	in    *xml.Decoder
	text  func(cell) string
	add   func(row []string) *schedule.Fault
	row   []string // reused
	rows  int      // so far
}

// eachRow hands on the rows of a sheet, of each cell what text makes of it, until one is
// refused; rows that the file leaves out are empty. It returns the merged cells, which
// stand behind the rows.
func (b *book) eachRow(s part, place string, text func(cell) string, add func(row []string) *schedule.Fault) ([]schedule.Merged, *schedule.Fault) {
	if s.xml == nil {
		return nil, unreadable(place, errors.New("the part of the sheet is missing"))
	}
	r := sheetReader{book: b, place: place, in: xml.NewDecoder(bytes.NewReader(s.xml)), text: text, add: add}
	var merged []schedule.Merged
	for behind := false; ; {
		token, err := r.in.Token()
		switch t := token.(type) {
		case nil:
			if !errors.Is(err, io.EOF) {
				return nil, unreadable(place, err)
			}
			return merged, nil
		case xml.EndElement:
			behind = behind || t.Name.Local == "sheetData"
		case xml.StartElement:
			if t.Name.Local == "row" && !behind {
				if why := r.readRow(t); why != nil {
					return nil, why
				}
			}
			if t.Name.Local == "mergeCell" {
				if len(merged) == maxMerged {
					return nil, fault(place, fmt.Sprintf("more than %d merged cells", maxMerged), "a sheet with the schedule alone")
				}
				if m, ok := mergedOf(attribute(t, "ref")); ok {
					merged = append(merged, m)
				}
			}
		}
	}
}

// mergedOf returns the cells of a range such as A1:B2.
func mergedOf(ref string) (m schedule.Merged, ok bool) {
	first, last, _ := strings.Cut(ref, ":")
	left, top, ok := coordinates(first)
	right, bottom, ok2 := coordinates(last)
	return schedule.Merged{Top: top - 1, Left: left - 1, Bottom: bottom - 1, Right: right - 1}, ok && ok2
}

func unreadable(place string, err error) *schedule.Fault {
	return fault(place, "cells that cannot be read ("+plainText(err)+")", "a workbook (.xlsx) that opens")
}

// readRow reads a row and hands it on.
func (r *sheetReader) readRow(start xml.StartElement) *schedule.Fault {
	number := r.rows + 1
	if s := attribute(start, "r"); s != "" {
		n, err := strconv.Atoi(s)
		if err != nil || n <= r.rows || n > lastRow {
			return unreadable(fmt.Sprintf("%s, row %d", r.place, number), fmt.Errorf("it has the number %s", s))
		}
		number = n
	}
	for ; r.rows < number-1; r.rows++ {
		if why := r.add(nil); why != nil {
			return why
		}
	}
	r.row = r.row[:0]
	if err := r.readCells(); err != nil {
		return unreadable(fmt.Sprintf("%s, row %d", r.place, number), err)
	}
	r.rows++
	return r.add(r.row)
}

// readCells reads what is left of a row.
func (r *sheetReader) readCells() error {
	column := 0
	for {
		token, err := r.in.Token()
		if err != nil {
			return err
		}
		switch t := token.(type) {
		case xml.EndElement:
			return nil
		case xml.StartElement:
			if t.Name.Local != "c" {
				if err := r.in.Skip(); err != nil {
					return err
				}
				continue
			}
			column++
			if ref := attribute(t, "r"); ref != "" {
				var ok bool
				if column, _, ok = coordinates(ref); !ok {
					return fmt.Errorf("a cell is called %s", ref)
				}
			}
			if column > lastColumn {
				return fmt.Errorf("more than %d cells", lastColumn)
			}
			c, err := r.readCell(t)
			if err != nil {
				return err
			}
			if c.text == "" {
				continue
			}
			for len(r.row) < column {
				r.row = append(r.row, "")
			}
			r.row[column-1] = r.text(c)
		}
	}
}

// readCell reads a cell. Of a formula it has what the program made of it that saved the
// file.
func (r *sheetReader) readCell(start xml.StartElement) (cell, error) {
	kind, style := attribute(start, "t"), 0
	if s := attribute(start, "s"); s != "" {
		var err error
		if style, err = strconv.Atoi(s); err != nil {
			return cell{}, fmt.Errorf("a cell is of style %s", s)
		}
	}
	var value string
	var own text
	for {
		token, err := r.in.Token()
		if err != nil {
			return cell{}, err
		}
		switch t := token.(type) {
		case xml.EndElement:
			return r.book.cell(kind, style, value, own)
		case xml.StartElement:
			switch t.Name.Local {
			case "v":
				err = r.in.DecodeElement(&value, &t)
			case "is":
				err = r.in.DecodeElement(&own, &t)
			default:
				err = r.in.Skip()
			}
			if err != nil {
				return cell{}, err
			}
		}
	}
}

// cell returns what a cell of a kind says: ECMA-376 part 1, 18.18.11.
func (b *book) cell(kind string, style int, value string, own text) (cell, error) {
	switch kind {
	case "s":
		if value == "" {
			return cell{}, nil
		}
		i, err := strconv.Atoi(strings.TrimSpace(value))
		if err != nil || i < 0 || i >= len(b.texts) {
			return cell{}, fmt.Errorf("a cell has text %s of %d", value, len(b.texts))
		}
		return cell{text: b.texts[i]}, nil
	case "inlineStr":
		return cell{text: cmp.Or(own.String(), value)}, nil
	case "", "n":
		c := cell{text: value, number: true}
		if style >= 0 && style < len(b.formats) {
			c.format = b.formats[style]
		}
		return c, nil
	}
	return cell{text: value}, nil
}

func attribute(of xml.StartElement, name string) string {
	for _, a := range of.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}

// coordinates returns the column and the row of a cell, such as 2 and 7 of B7, counted
// from 1.
func coordinates(ref string) (column, row int, ok bool) {
	letters := strings.TrimRight(ref, "0123456789")
	for _, l := range []byte(letters) {
		l &^= 'a' - 'A' // a capital
		if l < 'A' || l > 'Z' || column > lastColumn {
			return 0, 0, false
		}
		column = 26*column + int(l-'A') + 1
	}
	row, err := strconv.Atoi(ref[len(letters):])
	return column, row, err == nil && column > 0 && column <= lastColumn && row > 0 && row <= lastRow
}
