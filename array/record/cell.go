package record

import (
	"bytes"
	"math"
	"strconv"
	"time"
)

// number reads a plain decimal, 0 or more and finite. A decimal comma is
// understood where cells are not parted by it.
func (s *sheet) number(cell []byte) (float64, bool) {
	if x, ok := whole(cell); ok {
		return x, true
	}
	point := byte('.')
	if s.sep != ',' && bytes.IndexByte(cell, ',') >= 0 {
		point = ','
	}
	var text [40]byte // longer is no number that anybody wrote
	if len(cell) == 0 || len(cell) > len(text) {
		return 0, false
	}
	for i, b := range cell {
		switch {
		case b == point:
			b = '.'
		case b >= '0' && b <= '9', b == 'e', b == 'E', b == '+', b == '-':
		default:
			return 0, false
		}
		text[i] = b
	}
	x, err := strconv.ParseFloat(string(text[:len(cell)]), 64)
	if err != nil || x < 0 || math.IsInf(x, 0) {
		return 0, false
	}
	return math.Abs(x), true // not -0
}

// whole reads up to 15 digits, which is the common case and exact.
func whole(cell []byte) (float64, bool) {
	if len(cell) == 0 || len(cell) > 15 {
		return 0, false
	}
	n := int64(0)
	for _, b := range cell {
		if b < '0' || b > '9' {
			return 0, false
		}
		n = 10*n + int64(b-'0')
	}
	return float64(n), true
}

// truth reads whether something is so.
func truth(cell []byte) (is, ok bool) {
	if len(cell) == 1 {
		switch cell[0] {
		case '0', 'n', 'N':
			return false, true
		case '1', 'y', 'Y':
			return true, true
		}
	}
	switch string(bytes.ToLower(cell)) {
	case "yes", "true", "1.0":
		return true, true
	case "no", "false", "0.0":
		return false, true
	}
	return false, false
}

// Days are counted from 1970-01-01.
const (
	firstYear = 1980
	lastYear  = 2100
)

const dateRight = "a date such as 2025-09-30, of the years 1980 to 2100"

// day reads a date.
func day(cell []byte) (int32, bool) {
	if len(cell) != 10 || cell[4] != '-' || cell[7] != '-' {
		return 0, false
	}
	y, okY := whole(cell[:4])
	m, okM := whole(cell[5:7])
	d, okD := whole(cell[8:])
	if !okY || !okM || !okD {
		return 0, false
	}
	return calendar(int(y), int(m), int(d))
}

// written is a date as it stands: the days since 1970-01-01 or, where day and month
// may be either way round, both as they stand.
type written int32

// Of a written date that has no year first, in bits: the first number, the second,
// and the years since 1980.
const openDate written = 1 << 29

func (w written) open() bool { return w&openDate != 0 && w < written(never) }

// either returns the two numbers before the year.
func (w written) either() (first, second int) { return int(w >> 5 & 31), int(w & 31) }

// day returns the day of a date, its day first or its month first.
func (w written) day(dayFirst bool) (int32, bool) {
	if !w.open() {
		return int32(w), true
	}
	d, m := w.either()
	if !dayFirst {
		d, m = m, d
	}
	return calendar(firstYear+int(w>>10&0xff), m, d)
}

// date reads a date: year, month and day, or the year last, parted by hyphens, points
// or slashes; in a workbook also as the number that it counts days by.
func (s *sheet) date(cell []byte) (written, bool) {
	// As programs write a day that they take for a moment.
	cell = bytes.TrimSuffix(bytes.TrimSuffix(cell, []byte(" 00:00")), []byte(" 00:00:00"))
	if d, ok := day(cell); ok {
		return written(d), true
	}
	if s.first != 0 {
		if x, ok := s.number(cell); ok {
			d := int32(math.Min(x, math.MaxInt16*4)) + s.first
			year := time.Unix(int64(d)*86400, 0).UTC().Year()
			return written(d), year >= firstYear && year <= lastYear
		}
	}
	var mark byte
	for _, m := range []byte(".-/") {
		if bytes.IndexByte(cell, m) >= 0 {
			mark = m
		}
	}
	var parts [3]int
	texts := bytes.Split(cell, []byte{mark})
	if mark == 0 || len(texts) != len(parts) {
		return 0, false
	}
	for i, text := range texts {
		x, ok := whole(text)
		if !ok || len(text) > 4 || len(text) == 3 {
			return 0, false
		}
		parts[i] = int(x)
	}
	if len(texts[0]) == 4 {
		d, ok := calendar(parts[0], parts[1], parts[2])
		return written(d), ok && len(texts[1]) < 4 && len(texts[2]) < 4
	}
	if len(texts[0]) > 2 || len(texts[1]) > 2 || len(texts[2]) != 4 || parts[2] < firstYear || parts[2] > lastYear || parts[0] > 31 || parts[1] > 31 {
		return 0, false
	}
	w := openDate | written((parts[2]-firstYear)<<10|parts[0]<<5|parts[1])
	first, ok := w.day(true)
	_, okMonth := w.day(false)
	if parts[0] == parts[1] {
		return written(first), ok
	}
	return w, ok || okMonth
}

// calendar returns a day of the calendar; false where there is none.
func calendar(y, m, d int) (int32, bool) {
	t := time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC)
	return dayOf(t), y >= firstYear && y <= lastYear && t.Month() == time.Month(m) && t.Day() == d
}

func dayOf(t time.Time) int32 { return int32(t.Unix() / 86400) }

// Date reads a date as records have them: 2025-09-30, of the years 1980 to
// 2100.
func Date(text string) (time.Time, bool) {
	d, ok := day([]byte(text))
	return time.Unix(int64(d)*86400, 0).UTC(), ok
}
