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
	if !okY || !okM || !okD || y < firstYear || y > lastYear {
		return 0, false
	}
	t := time.Date(int(y), time.Month(m), int(d), 0, 0, 0, 0, time.UTC)
	if t.Month() != time.Month(m) || t.Day() != int(d) {
		return 0, false
	}
	return dayOf(t), true
}

func dayOf(t time.Time) int32 { return int32(t.Unix() / 86400) }

// Date reads a date as records have them: 2025-09-30, of the years 1980 to
// 2100.
func Date(text string) (time.Time, bool) {
	d, ok := day([]byte(text))
	return time.Unix(int64(d)*86400, 0).UTC(), ok
}
