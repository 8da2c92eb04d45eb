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
	nul := bytes.IndexByte(data, 0)
	if !utf8.Valid(data) || nul >= 0 && bytes.Count(data, []byte{0}) > len(data)/4 { // UTF-16 has one in two bytes of most texts
		return wrong(name, "a text that is not UTF-8", `CSV saved as UTF-8 ("CSV UTF-8" in many programs), or XLSX`)
	}
	if nul >= 0 {
		return wrong(fmt.Sprintf("%s, line %d", name, 1+bytes.Count(data[:nul], []byte("\n"))), "a NUL character", "text without it")
	}
	if line := longLine(data); line > 0 { // of which the library would make cells without end
		return wrong(fmt.Sprintf("%s, line %d", name, line), fmt.Sprintf("a line of more than %d bytes", maxLine), "a line for each group of cameras")
	}
	s := &Sheet{Place: name}
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord, r.ReuseRecord = -1, true
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
		// Blank lines are no records, but rows as a spreadsheet counts them.
		line, _ := r.FieldPos(0)
		for ; next < line && len(s.Rows) < maxRows-1; next++ {
			s.Rows = append(s.Rows, nil)
		}
		if why := s.Add(record); why != nil {
			return nil, Faults{*why}
		}
		next = line + 1
		for _, cell := range record {
			next += strings.Count(cell, "\n")
		}
	}
	return s.Read()
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

// longLine returns the first line, from 1, that is too long, cells of several lines
// taken for one; 0 where none is.
func longLine(data []byte) int {
	first, length, quoted := 1, 0, false
	for line := 1; len(data) > 0; line++ {
		end := bytes.IndexByte(data, '\n') + 1
		if end == 0 {
			end = len(data)
		}
		if length += end; length > maxLine {
			return first
		}
		if quoted != (bytes.Count(data[:end], []byte{'"'})%2 == 1) {
			quoted = true
		} else {
			first, length, quoted = line+1, 0, false
		}
		data = data[end:]
	}
	return 0
}
