package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"arrayodds/array"
)

// unknown stands for NaN: a figure that rests on something not given.
const unknown = "unknown"

// Digits is v rounded to so many significant digits, 1 to 15, without an
// exponent below 10^15 and with thousands parted by blanks: 4200.4 to 2 digits
// is "4 200".
func Digits(v float64, digits int) string {
	if math.IsNaN(v) {
		return unknown
	}
	if math.IsInf(v, 0) || math.Abs(v) >= 1e15 || v != 0 && math.Abs(v) < 1e-4 {
		return strconv.FormatFloat(v, 'g', digits, 64)
	}
	// 'e' rounds to the digits asked for; what it gives is then written out.
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'e', digits-1, 64), 64)
	return group(strconv.FormatFloat(rounded, 'f', -1, 64))
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

// step is one unit that a quantity may be shown in.
type step struct {
	least  float64 // shown in this unit from here on
	factor float64
	name   string
}

// inSteps shows v in the largest unit whose least it reaches, to three digits.
func inSteps(v float64, steps []step) string {
	if math.IsNaN(v) {
		return unknown
	}
	at := steps[len(steps)-1]
	for _, s := range steps {
		if v >= s.least {
			at = s
			break
		}
	}
	return Digits(v/at.factor, 3) + " " + at.name
}

var sizeSteps = []step{{1e15, 1e15, "PB"}, {1e12, 1e12, "TB"}, {1e9, 1e9, "GB"}, {1e6, 1e6, "MB"}, {1e3, 1e3, "kB"}, {0, 1, "B"}}

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

var bitSteps = []step{{1e9, 1e9, "Gbit/s"}, {1e6, 1e6, "Mbit/s"}, {1e3, 1e3, "kbit/s"}, {0, 1, "bit/s"}}

// FormatBitRate shows bit/s, to three digits: "6 Mbit/s".
func FormatBitRate(bitsPerSecond float64) string { return inSteps(bitsPerSecond, bitSteps) }

var timeSteps = []step{
	{2 * array.HoursPerYear, array.HoursPerYear, "y"},
	{7 * 24, 24, "d"},
	{1, 1, "h"},
	{1. / 60, 1. / 60, "min"},
	{0, 1. / 3600, "s"},
}

// FormatHours shows a length of time to three digits in the unit that people
// would take: "24 h", "30 d", "5 y". Up to a week it is hours, up to two years
// days, save whole years.
func FormatHours(hours float64) string {
	switch {
	case hours == 0:
		return "0 h"
	case hours == array.HoursPerYear:
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

// FormatWatts shows a power, to three digits: "7 W".
func FormatWatts(watts float64) string { return inSteps(watts, []step{{0, 1, "W"}}) }

// FormatWeek shows open hours as [Week] reads them, day by day: days that are
// open alike are joined.
func FormatWeek(w array.Week) string {
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
