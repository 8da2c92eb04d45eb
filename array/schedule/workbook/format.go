package workbook

import (
	"encoding/xml"
	"strconv"

	"arrayodds/array/pattern"
)

// formats returns the number formats of the styles that cells have.
func formats(in []byte) ([]string, error) {
	var styles struct {
		Formats []struct {
			ID   int    `xml:"numFmtId,attr"`
			Code string `xml:"formatCode,attr"`
		} `xml:"numFmts>numFmt"`
		Cells []struct {
			Format int `xml:"numFmtId,attr"`
		} `xml:"cellXfs>xf"`
	}
	if err := xml.Unmarshal(in, &styles); err != nil {
		return nil, err
	}
	// Those that need not be in a file, of which only these have per cent: ECMA-376 part
	// 1, 18.8.30.
	codes := map[int]string{9: "0%", 10: "0.00%"}
	for _, f := range styles.Formats {
		codes[f.ID] = f.Code
	}
	all := make([]string, len(styles.Cells))
	for i, c := range styles.Cells {
		all[i] = codes[c.Format]
	}
	return all, nil
}

// section is a part of a number format: how it shows some of the numbers.
type section struct {
	percent  bool
	operator string // of its condition, "" where it has none
	bound    float64
}

var condition = pattern.Of(`^(<=|>=|<>|<|>|=)(-?[0-9.]+)$`)

// sections splits a number format at its semicolons: ECMA-376 part 1, 18.8.31. What is
// quoted or behind a backslash is shown as it stands; behind an underscore is a
// character as wide as the blank, behind a star one to fill up with.
func sections(format string) []section {
	all := []section{{}}
	for i := 0; i < len(format); i++ {
		last := &all[len(all)-1]
		switch format[i] {
		case '\\', '_', '*':
			i++
		case '"':
			i = closing(format, i, '"')
		case '[':
			end := closing(format, i, ']')
			if m := condition().FindStringSubmatch(format[i+1 : end]); m != nil {
				if x, err := strconv.ParseFloat(m[2], 64); err == nil {
					last.operator, last.bound = m[1], x
				}
			}
			i = end
		case '%':
			last.percent = true
		case ';':
			all = append(all, section{})
		}
	}
	return all
}

// closing returns where the next mark behind i is, or the end.
func closing(format string, i int, mark byte) int {
	for i++; i < len(format) && format[i] != mark; i++ {
	}
	return i
}

// percent reports whether a number format shows x as per cent, 0.5 as 50 %.
func percent(format string, x float64) bool {
	all := sections(format)
	all = all[:min(len(all), 3)] // the fourth is for texts
	for i, s := range all {
		if i == len(all)-1 || s.shows(x, i, len(all)) {
			return s.percent
		}
	}
	return false
}

// shows reports whether a section, of so many, is for x. Without conditions the first is
// for positive numbers, and for zero where there are but two; the second for negative
// ones; the third for zero.
func (s section) shows(x float64, i, of int) bool {
	switch s.operator {
	case "<":
		return x < s.bound
	case "<=":
		return x <= s.bound
	case ">":
		return x > s.bound
	case ">=":
		return x >= s.bound
	case "=":
		return x == s.bound
	case "<>":
		return x != s.bound
	}
	return i == 0 && (x > 0 || x == 0 && of == 2) || i == 1 && x < 0
}
