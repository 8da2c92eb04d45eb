package schedule

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

func readCSV(data []byte, name string) (*Schedule, error) {
	wrong := func(place, found, right string) (*Schedule, error) {
		return nil, Faults{{place, "", found, right}}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !utf8.Valid(data) || bytes.IndexByte(data, 0) >= 0 {
		return wrong(name, "a text that is not UTF-8", `CSV saved as UTF-8 ("CSV UTF-8" in many programs), or XLSX`)
	}
	s := &sheet{place: name}
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord = -1
	r.Comma = separator(data)
	s.commas = r.Comma == ';'
	for next := 1; ; {
		record, err := r.Read()
		if err == io.EOF {
			break
		}
		var e *csv.ParseError
		if errors.As(err, &e) {
			return wrong(fmt.Sprintf("%s, line %d", name, e.Line), e.Err.Error(), "cells with quotes around the whole or around nothing")
		}
		if err != nil {
			return wrong(name, err.Error(), "a CSV file")
		}
		if len(record) > maxColumns {
			return wrong(s.row(len(s.rows)), fmt.Sprintf("%d columns", len(record)), fmt.Sprintf("at most %d", maxColumns))
		}
		if len(s.rows) == maxRows {
			return wrong(name, fmt.Sprintf("more than %d rows", maxRows), fmt.Sprintf("at most %d", maxRows))
		}
		// Blank lines are no records, but rows as a spreadsheet counts them.
		line, _ := r.FieldPos(0)
		for ; next < line && len(s.rows) < maxRows-1; next++ {
			s.rows = append(s.rows, nil)
		}
		s.rows = append(s.rows, record)
		next = line + 1 + strings.Count(strings.Join(record, ""), "\n")
	}
	return s.read()
}

// separator returns the mark between cells: the most frequent one of the first line
// that has two marks or more outside of quotes; else a comma.
func separator(data []byte) rune {
	marks := map[rune]int{}
	quoted := false
	for _, c := range string(data[:min(len(data), 1<<16)]) + "\n" {
		switch {
		case c == '"':
			quoted = !quoted
		case quoted:
		case c == ',' || c == ';' || c == '\t':
			marks[c]++
		case c == '\n':
			best := ','
			for _, m := range []rune{';', '\t'} {
				if marks[m] > marks[best] {
					best = m
				}
			}
			if marks[best] >= 2 {
				return best
			}
			clear(marks)
		}
	}
	return ','
}
