package unit

import (
	"sort"
	"strconv"
	"strings"

	"arrayodds/array/pattern"
)

// A Week lists the open spans of a week, in hours since Monday 00:00, in order
// and without overlap.
type Week []Span

// A Span is open from From to To, both in [0, 168], From below To.
type Span struct{ From, To float64 }

// Open returns the number of open hours a week.
func (w Week) Open() float64 {
	sum := 0.0
	for _, s := range w {
		sum += s.To - s.From
	}
	return sum
}

const weekRight = `days and hours, such as "Mon-Fri 08:00-17:00" or "Mon-Thu 08:00-18:00, Fri 08:00-14:00"`

var dayNames = []string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"}

var (
	spanForm  = pattern.Of(`^(?:([A-Za-z]+)(?: ?- ?([A-Za-z]+))? )?(\d{1,2}:\d{2}) ?- ?(\d{1,2}:\d{2})$`)
	clockForm = pattern.Of(`^(\d{1,2}):(\d{2})$`)
	dashes    = strings.NewReplacer("–", "-", "—", "-")
)

// maxSpans bounds what one list of open hours may hold.
const maxSpans = 100

// ParseWeek reads open hours: spans such as "Mon-Fri 08:00-17:00", parted by commas.
// Days are English, in three letters or in full; "Sat-Mon" goes over the end of
// the week. A span whose end is not after its start goes over midnight, into
// the day after each of its days; the end of a day is 24:00. A span without
// days has those of the span before it. Spans that meet or overlap are joined.
func ParseWeek(text string) (Week, error) {
	wrong := func(why, mean string) (Week, error) {
		return nil, &Error{Found: because(text, why), Right: weekRight, Mean: mean}
	}
	line := squeeze(dashes.Replace(text))
	if line == "" {
		return nil, &Error{Found: "nothing", Right: weekRight}
	}
	if line == "24/7" || strings.EqualFold(line, "always") {
		return wrong("which is not days and hours", "Mon-Sun 00:00-24:00")
	}
	parts := strings.Split(line, ",")
	if len(parts) > maxSpans {
		return wrong("which is more than "+strconv.Itoa(maxSpans)+" spans", "")
	}
	var spans []Span
	first, last := -1, -1
	for _, part := range parts {
		part = strings.TrimSpace(part)
		m := spanForm().FindStringSubmatch(part)
		if m == nil {
			return wrong("where "+Quote(part)+" is not a span of hours", "")
		}
		if m[1] != "" {
			if first = day(m[1]); first < 0 {
				return wrong("where "+Quote(m[1])+" is not a day", "")
			}
			last = first
			if m[2] != "" {
				if last = day(m[2]); last < 0 {
					return wrong("where "+Quote(m[2])+" is not a day", "")
				}
			}
		}
		if first < 0 {
			return wrong("which names no day", "")
		}
		from, ok1 := clock(m[3])
		to, ok2 := clock(m[4])
		if !ok1 || !ok2 || from == 24*60 {
			return wrong("where "+Quote(m[3]+"-"+m[4])+" is not from 00:00 to 24:00", "")
		}
		if from == to {
			return wrong("where "+Quote(m[3]+"-"+m[4])+" has no length; all day is 00:00-24:00", "")
		}
		if to < from {
			to += 24 * 60
		}
		for d := first; ; d = (d + 1) % 7 {
			spans = append(spans, around(24*60*d+from, 24*60*d+to)...)
			if d == last {
				break
			}
		}
	}
	return join(spans), nil
}

// day returns the number of a day from Monday, or −1.
func day(name string) int {
	full := []string{"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"}
	for i, d := range dayNames {
		if strings.EqualFold(name, d) || strings.EqualFold(name, full[i]) {
			return i
		}
	}
	return -1
}

// clock returns the minute of the day of "HH:MM", up to 24:00.
func clock(text string) (int, bool) {
	m := clockForm().FindStringSubmatch(text)
	if m == nil {
		return 0, false
	}
	h, _ := strconv.Atoi(m[1])
	min, _ := strconv.Atoi(m[2])
	return 60*h + min, min <= 59 && 60*h+min <= 24*60
}

const weekMinutes = 7 * 24 * 60

// around cuts a span, in minutes, at the end of the week.
func around(from, to int) []Span {
	span := func(from, to int) Span { return Span{From: float64(from) / 60, To: float64(to) / 60} }
	if to <= weekMinutes {
		return []Span{span(from, to)}
	}
	return []Span{span(from, weekMinutes), span(0, to-weekMinutes)}
}

// join sorts spans and merges those that meet.
func join(spans []Span) Week {
	sort.Slice(spans, func(i, j int) bool { return spans[i].From < spans[j].From })
	var w Week
	for _, s := range spans {
		if n := len(w); n > 0 && s.From <= w[n-1].To {
			w[n-1].To = max(w[n-1].To, s.To)
			continue
		}
		w = append(w, s)
	}
	return w
}

// ParseHourOfWeek reads a day and an hour such as "Tue 03:00", as hours since Monday
// 00:00, 0 or more and below 168.
func ParseHourOfWeek(text string) (float64, error) {
	const right = `a day and an hour, such as "Tue 03:00"`
	name, at, _ := strings.Cut(squeeze(text), " ")
	d := day(name)
	minute, ok := clock(at)
	if d < 0 || !ok || minute == 24*60 {
		return 0, &Error{Found: Quote(text), Right: right}
	}
	return float64(24*d) + float64(minute)/60, nil
}
