package site

import (
	"fmt"
	"strings"

	"arrayodds/array"
	"arrayodds/array/unit"
)

// Limits of the laws of time.
var (
	anyTime    = between{"0 h", "50 y"}
	someTime   = between{"1 s", "50 y"}
	shapes     = limits{0.2, 20}
	lawsRight  = `a time in quotes, such as "48 h" (0 h to 50 y), or one of { exponential = "48 h" }, { weibull = { min = "6 h", scale = "12 h", shape = 2 } }, { lognormal = { median = "24 h", p90 = "72 h" } }`
	openRight  = lawsRight + `, { within = "8 h", hours = "Mon-Fri 08:00-17:00" }`
	maxP90Over = 1000.
)

// lawKey is how a key with a time law is to be read.
type lawKey struct {
	open bool // open hours make sense
	none bool // "none" is a value, and nil
	some bool // a length of 0 makes no sense
}

// law reads a time that may be a matter of chance.
func (t *table) law(key string, or fallback, as lawKey, dst *array.Time) {
	right := lawsRight
	if as.open {
		right = openRight
	}
	if as.none {
		right += `, or "none"`
	}
	n := t.ask(key, or, right)
	if n == nil {
		return
	}
	if as.none && isNone(n) {
		*dst = nil
		t.tell(key, "none")
		return
	}
	t.spanned(key, n, func(end *node) (float64, bool) {
		law, _ := t.lawOf(key, end, as, right)
		fixed, ok := law.(array.Fixed)
		return fixed.Hours, ok // laws of chance have no order
	})
	if law, told := t.lawOf(key, n, as, right); law != nil {
		*dst = law
		t.tell(key, told+n.span.said())
	}
}

// lawOf reads a fixed time or the table of a law; nil where it is wrong.
func (t *table) lawOf(key string, n *node, as lawKey, right string) (array.Time, string) {
	switch n.kind {
	case broken: // reported already
	case tables:
		return t.lawTable(key, n, as, right)
	case text, whole, decimal, measured:
		in := anyTime
		if as.some {
			in = someTime
		}
		if v, told, ok := t.measureOne(key, n, aTime, in); ok {
			return array.Fixed{Hours: v}, told
		}
	default:
		t.wrongAt(n, key, n.shown(), right, "")
	}
	return nil, ""
}

// lawTable reads the table of a law; nil where it is wrong.
func (t *table) lawTable(key string, n *node, as lawKey, right string) (array.Time, string) {
	l := t.in(n, path(t.path, key), path(t.kind, key))
	l.quiet = true
	forms := []string{"exponential", "weibull", "lognormal"}
	if as.open {
		forms = append(forms, "within", "hours")
	}
	before := len(t.errs)
	var law array.Time
	var told string
	form := l.form([][]string{{"exponential"}, {"weibull"}, {"lognormal"}, {"within", "hours"}}, right)
	switch {
	case form == "":
		l.known = forms
	case form == "exponential":
		law, told = l.exponential()
	case form == "weibull":
		if in := l.child("weibull"); in != nil {
			law, told = in.weibull()
		}
	case form == "lognormal":
		if in := l.child("lognormal"); in != nil {
			law, told = in.lognormal()
		}
	case as.open:
		law, told = l.openHours()
	default:
		l.wrong(form, "open hours", right, "")
		l.known = []string{"within", "hours"}
	}
	l.done()
	if len(t.errs) > before || law == nil {
		return nil, ""
	}
	return law, told
}

// form is the first key of the form that a table is written in. Keys of another
// form beside it are reported, and so is a table of no form.
func (t *table) form(forms [][]string, right string) string {
	found := ""
	for _, keys := range forms {
		mine := false
		for _, key := range keys {
			if !t.given(key) {
				continue
			}
			switch {
			case found == "":
				found, mine = key, true
			case !mine:
				t.wrong(key, "it beside "+found, "one of the two", "")
				t.known = append(t.known, key)
			}
		}
	}
	if found == "" && !t.cut {
		var all []string
		for _, keys := range forms {
			all = append(all, keys...)
		}
		for _, key := range t.node.keys { // misspelt: done says what was meant
			if nearest(key, all) != "" {
				t.known = all
				return ""
			}
		}
		t.fail(t.node.line, t.path, "a table without "+strings.Join(all, ", "), right, "")
		t.known = append(append(t.known, all...), t.node.keys...)
	}
	return found
}

func (t *table) exponential() (array.Time, string) {
	var e array.Exponential
	if !t.quantity("exponential", aTime, required, someTime, &e.Mean) {
		return nil, ""
	}
	return e, "exponential, mean " + t.written("exponential")
}

func (t *table) weibull() (array.Time, string) {
	t.quiet = true
	var w array.WeibullTime
	t.quantity("min", aTime, standard("0 h"), anyTime, &w.Min)
	t.quantity("scale", aTime, required, someTime, &w.Scale)
	t.number("shape", required, shapes, &w.Shape)
	t.done()
	return w, fmt.Sprintf("Weibull: minimum %s, scale %s, shape %s", t.writtenOr("min", "0 h"), t.written("scale"), t.written("shape"))
}

func (t *table) lognormal() (array.Time, string) {
	t.quiet = true
	var l array.Lognormal
	median := t.quantity("median", aTime, required, someTime, &l.Median)
	p90 := t.quantity("p90", aTime, required, someTime, &l.P90)
	t.done()
	if median && p90 && (l.P90 <= l.Median || l.P90 > maxP90Over*l.Median) {
		t.wrong("p90", unit.Quote(t.written("p90")), fmt.Sprintf("above the median of %s, and at most %g times as long", t.written("median"), maxP90Over), "")
	}
	return l, fmt.Sprintf("lognormal: half within %s, nine in ten within %s", t.written("median"), t.written("p90"))
}

func (t *table) openHours() (array.Time, string) {
	var o array.OpenHours
	t.quantity("within", aTime, required, anyTime, &o.Within)
	right := `open hours, such as "Mon-Fri 08:00-17:00"`
	n := t.ask("hours", required, right)
	if n == nil {
		return nil, ""
	}
	if n.kind != text {
		t.wrongAt(n, "hours", n.shown(), right, "")
		return nil, ""
	}
	w, err := unit.Week(n.text)
	if err != nil {
		e := err.(*unit.Error)
		t.wrongAt(n, "hours", e.Found, e.Right, e.Mean)
		return nil, ""
	}
	o.Week = w
	return o, fmt.Sprintf("%s of open hours (%s; holidays not known)", t.written("within"), unit.FormatWeek(w))
}

// written is a value as the file has it.
func (t *table) written(key string) string { return t.writtenOr(key, "") }

func (t *table) writtenOr(key, or string) string {
	if n := t.node.under[key]; n != nil {
		return strings.Join(strings.Fields(n.text), " ") + n.span.said()
	}
	return or
}
