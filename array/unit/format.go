package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// unknown stands for NaN: a figure that rests on something not given.
const unknown = "unknown"

// Count returns a number of things: "1 drive", "8 drives".
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// Digits returns v rounded to so many significant digits, 1 to 15, without an
// exponent below 10^15 and with thousands parted by blanks: 4200.4 to 2 digits
// is "4 200".
func Digits(v float64, digits int) string {
	if math.IsNaN(v) {
		return unknown
	}
	if math.IsInf(v, 0) || math.Abs(v) >= 1e15 || v != 0 && math.Abs(v) < 1e-4 {
		return strconv.FormatFloat(v, 'g', digits, 64)
	}
	return group(strconv.FormatFloat(toDigits(v, digits), 'f', -1, 64))
}

// group parts the thousands of a plain decimal by blanks, in figures of four
// digits too, so that columns agree.
func group(s string) string {
	sign := ""
	if strings.HasPrefix(s, "-") {
		sign, s = "-", s[1:]
	}
	whole, fraction, point := strings.Cut(s, ".")
	var b strings.Builder
	for i, r := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(' ')
		}
		b.WriteRune(r)
	}
	if point {
		b.WriteString("." + fraction)
	}
	return sign + b.String()
}

// inSteps shows v in the step of its size, to three digits.
func inSteps(v float64, steps []Step) string {
	if math.IsNaN(v) {
		return unknown
	}
	count, name := Scale(v, steps)
	return Digits(count, figures) + " " + name
}

// powersOf1000 returns the steps of a unit that takes decimal prefixes, the largest
// prefix first.
func powersOf1000(unit string, prefixes ...string) []Step {
	var steps []Step
	for i, prefix := range prefixes {
		factor := math.Pow10(3 * (len(prefixes) - i))
		steps = append(steps, Step{Least: factor, Factor: factor, Name: prefix + unit, Round: toFigures})
	}
	return append(steps, Step{Factor: 1, Name: unit, Round: toFigures})
}

var sizeSteps = powersOf1000("B", "P", "T", "G", "M", "k")

// FormatSize shows bytes in powers of 1000, to three digits: "12 TB".
func FormatSize(bytes float64) string { return inSteps(bytes, sizeSteps) }

// FormatRate shows bytes/s, to three digits: "210 MB/s".
func FormatRate(bytesPerSecond float64) string {
	s := FormatSize(bytesPerSecond)
	if s == unknown {
		return s
	}
	return s + "/s"
}

var bitSteps = powersOf1000("bit/s", "G", "M", "k")

// FormatBitRate shows bit/s, to three digits: "6 Mbit/s".
func FormatBitRate(bitsPerSecond float64) string { return inSteps(bitsPerSecond, bitSteps) }

var timeSteps = []Step{
	{2 * HoursPerYear, HoursPerYear, "y", toFigures},
	{7 * 24, 24, "d", toFigures},
	{1, 1, "h", toFigures},
	{1. / 60, 1. / 60, "min", toFigures},
	{0, 1. / 3600, "s", toFigures},
}

// FormatHours shows a length of time to three digits in the unit that people
// would take: "24 h", "30 d", "5 y". It is in hours below a week and in days
// below two years, save "1 y".
func FormatHours(hours float64) string {
	switch {
	case hours == 0:
		return "0 h"
	case toFigures(hours/24) == HoursPerYear/24:
		return "1 y"
	}
	return inSteps(hours, timeSteps)
}

// FormatPercent shows a share in per cent, to so many digits: "1.5 %".
func FormatPercent(share float64, digits int) string {
	if math.IsNaN(share) {
		return unknown
	}
	return Digits(share*100, digits) + " %"
}

// FormatWeek shows open hours as [ParseWeek] reads them, day by day: days that are
// open alike are joined.
func FormatWeek(w Week) string {
	var days [7]string
	for _, s := range w {
		for d := int(s.From) / 24; d < 7 && float64(24*d) < s.To; d++ {
			from, to := max(s.From-float64(24*d), 0), min(s.To-float64(24*d), 24)
			if days[d] != "" {
				days[d] += "|"
			}
			days[d] += formatClock(from) + "-" + formatClock(to)
		}
	}
	var parts []string
	for d := 0; d < 7; {
		end := d
		for end+1 < 7 && days[end+1] == days[d] {
			end++
		}
		name := dayNames[d]
		if end > d {
			name += "-" + dayNames[end]
		}
		if days[d] != "" {
			for _, hours := range strings.Split(days[d], "|") {
				parts = append(parts, name+" "+hours)
			}
		}
		d = end + 1
	}
	return strings.Join(parts, ", ")
}

func formatClock(hour float64) string {
	minutes := int(math.Round(hour * 60))
	return fmt.Sprintf("%02d:%02d", minutes/60, minutes%60)
}
