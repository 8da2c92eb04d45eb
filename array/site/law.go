package site

import (
	"fmt"

	"arrayodds/array"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// Limits of the laws of time.
var (
	anyTime    = toml.Between{Low: "0 h", High: "50 y"}
	someTime   = toml.Between{Low: "1 s", High: "50 y"}
	shapes     = toml.Limits{Low: 0.2, High: 20}
	lawsRight  = `, or one of { exponential = "48 h" }, { weibull = { min = "6 h", scale = "12 h", shape = 2 } }, { lognormal = { median = "24 h", p90 = "72 h" } }`
	openRight  = lawsRight + `, { within = "8 h", hours = "Mon-Fri 08:00-17:00" }`
	maxP90Over = 1000.
)

// timeKey is how a key with a time law is to be read.
type timeKey struct {
	open bool // open hours make sense
	none bool // "none" is a value, and nil
	some bool // a length of 0 makes no sense
}

// in is what a fixed time has to lie between.
func (as timeKey) in() toml.Between {
	if as.some {
		return someTime
	}
	return anyTime
}

// readTime reads a time that may be a matter of chance.
func readTime(t *toml.Table, key string, or toml.Fallback, as timeKey, dst *array.Time) {
	right := toml.Time.Right(as.in())
	if as.open {
		right += openRight
	} else {
		right += lawsRight
	}
	if as.none {
		right += `, or "none"`
	}
	n := t.Ask(key, or, right)
	if n == nil {
		return
	}
	if as.none && n.IsNone() {
		*dst = nil
		t.NoteValue(key, "none")
		return
	}
	t.ReadEnds(key, n, func(end *toml.Node) (float64, bool) {
		law, _ := timeOf(t, key, end, as, right)
		fixed, ok := law.(array.Fixed)
		return fixed.Hours, ok // laws of chance have no order
	})
	if law, told := timeOf(t, key, n, as, right); law != nil {
		*dst = law
		t.NoteValue(key, told+n.Range.Ends())
	}
}

// timeOf reads a fixed time or the table of a law; nil where it is wrong.
func timeOf(t *toml.Table, key string, n *toml.Node, as timeKey, right string) (array.Time, string) {
	switch n.Kind {
	case toml.BrokenNode: // reported already
	case toml.TableNode:
		return timeTable(t, key, n, as, right)
	case toml.StringNode, toml.IntegerNode, toml.FloatNode, toml.MeasuredNode:
		if v, told, ok := t.MeasureOne(key, n, toml.Time, as.in()); ok {
			return array.Fixed{Hours: v}, told
		}
	default:
		t.WrongAt(n, key, n.Shown(), right, "")
	}
	return nil, ""
}

// timeTable reads the table of a law; nil where it is wrong.
func timeTable(t *toml.Table, key string, n *toml.Node, as timeKey, right string) (array.Time, string) {
	l := t.Inner(key, n)
	l.Quiet = true
	forms := [][]string{{"exponential"}, {"weibull"}, {"lognormal"}}
	openHours := []string{"within", "hours"}
	if as.open {
		forms = append(forms, openHours)
	} else {
		for _, key := range openHours {
			if l.Given(key) {
				l.Wrong(key, "open hours", right, "")
				return nil, ""
			}
		}
	}
	before := len(t.Errs)
	var law array.Time
	var told string
	switch l.Form(forms, right) {
	case "exponential":
		law, told = readExponential(l)
	case "weibull":
		if in := l.Child("weibull"); in != nil {
			law, told = readWeibull(in)
		}
	case "lognormal":
		if in := l.Child("lognormal"); in != nil {
			law, told = readLognormal(in)
		}
	case "within", "hours":
		law, told = readOpenHours(l)
	}
	l.Done()
	if len(t.Errs) > before || law == nil {
		return nil, ""
	}
	return law, told
}

func readExponential(t *toml.Table) (array.Time, string) {
	var e array.Exponential
	if !t.Quantity("exponential", toml.Time, toml.Required, someTime, &e.Mean) {
		return nil, ""
	}
	return e, "exponential, mean " + t.Written("exponential", "")
}

func readWeibull(t *toml.Table) (array.Time, string) {
	t.Quiet = true
	var w array.WeibullTime
	t.Quantity("min", toml.Time, toml.Default("0 h"), anyTime, &w.Min)
	t.Quantity("scale", toml.Time, toml.Required, someTime, &w.Scale)
	t.Number("shape", toml.Required, shapes, &w.Shape)
	t.Done()
	return w, fmt.Sprintf("Weibull: minimum %s, scale %s, shape %s", t.Written("min", "0 h"), t.Written("scale", ""), t.Written("shape", ""))
}

func readLognormal(t *toml.Table) (array.Time, string) {
	t.Quiet = true
	var l array.Lognormal
	median := t.Quantity("median", toml.Time, toml.Required, someTime, &l.Median)
	p90 := t.Quantity("p90", toml.Time, toml.Required, someTime, &l.P90)
	t.Done()
	if median && p90 && (l.P90 <= l.Median || l.P90 > maxP90Over*l.Median) {
		t.Wrong("p90", unit.Quote(t.Written("p90", "")), fmt.Sprintf("above the median of %s, and at most %g times as long", t.Written("median", ""), maxP90Over), "")
	}
	return l, fmt.Sprintf("lognormal: half within %s, nine in ten within %s", t.Written("median", ""), t.Written("p90", ""))
}

func readOpenHours(t *toml.Table) (array.Time, string) {
	var o array.OpenHours
	t.Quantity("within", toml.Time, toml.Required, anyTime, &o.Within)
	right := `open hours, such as "Mon-Fri 08:00-17:00"`
	n := t.Ask("hours", toml.Required, right)
	if n == nil {
		return nil, ""
	}
	if n.Kind != toml.StringNode {
		t.WrongAt(n, "hours", n.Shown(), right, "")
		return nil, ""
	}
	w, err := unit.Week(n.Text)
	if err != nil {
		e := err.(*unit.Error)
		t.WrongAt(n, "hours", e.Found, e.Right, e.Mean)
		return nil, ""
	}
	o.Week = w
	return o, fmt.Sprintf("%s of open hours (%s; holidays not known)", t.Written("within", ""), unit.FormatWeek(w))
}
