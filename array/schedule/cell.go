package schedule

import (
	"fmt"
	"strings"

	"arrayodds/array/pattern"

	"arrayodds/array/unit"
)

// cell reads the text of a cell under a heading. The fault has no place yet.
func (h heading) cell(text string, commas bool) (Cell, *Fault) {
	s := Squeezed(text)
	if len([]rune(s)) > maxCellRunes {
		return Cell{}, &Fault{Found: fmt.Sprintf("a cell of %d characters", len([]rune(s))), Right: fmt.Sprintf("at most %d", maxCellRunes)}
	}
	if h.key == "label" || h.key == "codec" {
		return Cell{Text: s}, nil
	}
	s, why := pointed(s, commas)
	if why != nil {
		return Cell{}, why
	}
	if m := numberAndUnit().FindStringSubmatch(s); m != nil && h.key == "bitrate" {
		s = m[1] + " " + bitUnit(m[2])
	}
	if h.key == "hours_per_day" && allDay().MatchString(s) {
		return Cell{Text: "24", Number: true}, nil
	}
	bare := plainNumber().MatchString(s)
	if units, ok := plainUnits[h.key]; ok {
		for _, u := range units {
			if n := len(s) - len(u); n > 0 && strings.EqualFold(s[n:], u) && plainNumber().MatchString(strings.TrimSpace(s[:n])) {
				s, bare = strings.TrimSpace(s[:n]), true
			}
		}
		if bare {
			s = strings.ReplaceAll(s, " ", "")
		}
		return Cell{Text: s, Number: bare}, nil
	}
	switch {
	case bare && h.unit != "":
		s += " " + h.unit
	case bare && h.key == "activity":
		return Cell{Text: strings.ReplaceAll(s, " ", ""), Number: true}, nil
	}
	return Cell{Text: s}, nil
}

var (
	plainNumber = pattern.Of(`^\d{1,3}(?: \d{3})+(?:\.\d+)?$|^\d+(?:\.\d+)?(?:[eE][+-]?\d{1,3})?$`)
	// numberAndUnit is a number with letters behind it, allDay what is written for all
	// hours of all days.
	numberAndUnit = pattern.Of(`^(\d[\d .]*?) ?([a-zA-Z][a-zA-Z/.]*)$`)
	allDay        = pattern.Of(`^24 ?(?:/|x|×|h/) ?7$`)
	withMarks     = pattern.Of(`^(\d[\d.,]*[.,]\d+)(.*)$`)
	threes        = pattern.Of(`^[1-9]\d{0,2}(?:[.,]\d{3})+$`)
)

// pointed gives the number at the front of a text its decimal point.
func pointed(s string, commas bool) (string, *Fault) {
	m := withMarks().FindStringSubmatch(s)
	if m == nil {
		return s, nil
	}
	number, rest := m[1], m[2]
	last := strings.LastIndexAny(number, ".,")
	front, mark, fraction := number[:last], number[last], number[last+1:]
	other := map[byte]string{'.': ",", ',': "."}[mark]
	switch {
	case strings.Contains(front, string(mark)): // parted by that mark more than once: thousands
		if strings.Contains(front, other) || !threes().MatchString(number) {
			return "", unreadable(s)
		}
		return strings.ReplaceAll(number, string(mark), "") + rest, nil
	case strings.Contains(front, other):
		if !threes().MatchString(front) {
			return "", unreadable(s)
		}
		return strings.ReplaceAll(front, other, "") + "." + fraction + rest, nil
	case threes().MatchString(number) && (mark == ',' || commas):
		return "", &Fault{
			Found: unit.Quote(s) + ", which may have thousands or decimals",
			Right: fmt.Sprintf("%q or %q", front+fraction+rest, strings.TrimRight(front+"."+fraction, "0")+zero(fraction)+rest),
		}
	}
	return front + "." + fraction + rest, nil
}

// zero keeps a digit behind the point.
func zero(fraction string) string {
	if strings.Trim(fraction, "0") == "" {
		return "0"
	}
	return ""
}

func unreadable(s string) *Fault {
	return &Fault{Found: unit.Quote(s) + ", whose number cannot be read", Right: "a number such as 1234.5 or 1234,5"}
}
