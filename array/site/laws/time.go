package laws

import (
	"fmt"

	"arrayodds/array"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// maxP90Over bounds how many times its median a lognormal law's 90 % is.
const maxP90Over = 1000.

// timeForms are the laws of time, one a row. Open hours, the last, make sense only for
// what people do.
var timeForms = []form[array.Time]{
	{`{ exponential = "48 h" }`, []toml.Key{
		{Path: "exponential", Kind: toml.Measured, Quantity: toml.Hours, Min: "1 s", Max: "50 y", Required: true, Doc: "The mean of an exponential law."},
	}, readExponential},
	{`{ weibull = { min = "6 h", scale = "12 h", shape = 2 } }`, toml.Inside(
		toml.Key{Path: "weibull", Kind: toml.SubTable, Doc: "A Weibull law."}, []toml.Key{
			{Path: "min", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "50 y", Default: "0 h", Doc: "What it takes at the least."},
			{Path: "scale", Kind: toml.Measured, Quantity: toml.Hours, Min: "1 s", Max: "50 y", Required: true, Doc: "Beyond the minimum, what 63 % take at most."},
			{Path: "shape", Kind: toml.Number, Min: "0.2", Max: "20", Required: true, Doc: "1 is exponential; the larger, the less it varies."},
		}), readWeibull},
	{`{ lognormal = { median = "24 h", p90 = "72 h" } }`, toml.Inside(
		toml.Key{Path: "lognormal", Kind: toml.SubTable, Doc: "A lognormal law."}, []toml.Key{
			{Path: "median", Kind: toml.Measured, Quantity: toml.Hours, Min: "1 s", Max: "50 y", Required: true, Doc: "What half of them take at most."},
			{Path: "p90", Kind: toml.Measured, Quantity: toml.Hours, Min: "1 s", Max: "50 y", Required: true,
				Doc: "What nine in ten take at most; above the median, and at most 1000 times as long."},
		}), readLognormal},
	{`{ within = "8 h", hours = "Mon-Fri 08:00-17:00" }`, []toml.Key{
		{Path: "within", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "50 y", Required: true, Doc: "So many open hours; holidays are not known."},
		{Path: "hours", Kind: toml.Text, Required: true, Right: `open hours, such as "Mon-Fri 08:00-17:00"`, Doc: "When those are."},
	}, readOpenHours},
}

// TimeKeys returns the key of a time that may be a matter of chance, followed by those of
// its laws.
func TimeKeys(k toml.Key) []toml.Key { return keysOf(k, timeForms[:len(timeForms)-1]) }

// WorkTimeKeys is as [TimeKeys], for what people do: it may take so many open hours.
func WorkTimeKeys(k toml.Key) []toml.Key { return keysOf(k, timeForms) }

// ReadTime reads a time that may be a matter of chance.
func ReadTime(t *toml.Table, key string, dst *array.Time) {
	n := t.Ask(key)
	if n == nil {
		return
	}
	if t.Key(key).None && n.IsNone() {
		*dst = nil
		t.NoteValue(key, "none")
		return
	}
	sound := t.ReadEnds(key, n, func(end *toml.Node) (float64, bool) {
		law, _ := timeOf(t, key, end)
		fixed, ok := law.(array.Fixed)
		return fixed.Hours, ok // laws of chance have no order
	})
	if law, note := timeOf(t, key, n); law != nil && sound {
		*dst = law
		t.NoteValue(key, note+n.Range.Ends())
	}
}

// timeOf reads a fixed time or the table of a law; nil where it is wrong.
func timeOf(t *toml.Table, key string, n *toml.Node) (array.Time, string) {
	switch n.Kind {
	case toml.BrokenNode: // reported already
	case toml.TableNode:
		return timeTable(t, key, n)
	case toml.StringNode, toml.IntegerNode, toml.FloatNode, toml.MeasuredNode:
		if v, note, ok := t.MeasureOne(key, n); ok {
			return array.Fixed{Hours: v}, note
		}
	default:
		t.WrongAt(n, key, n.Shown(), t.Key(key).Expected(), "")
	}
	return nil, ""
}

// timeTable reads the table of a law; nil where it is wrong.
func timeTable(t *toml.Table, key string, n *toml.Node) (array.Time, string) {
	k, l := t.Key(key), t.Inner(key, n)
	if len(k.Forms) < len(timeForms) {
		for _, open := range []string{"within", "hours"} {
			if l.Given(open) {
				l.Wrong(open, "open hours", k.Expected(), "")
				return nil, ""
			}
		}
	}
	law, note, ok := read(l, k, timeForms)
	if !ok {
		return nil, ""
	}
	return law, note
}

func readExponential(t *toml.Table) (array.Time, string) {
	var e array.Exponential
	t.Quantity("exponential", &e.Mean)
	return e, "exponential, mean " + t.Written("exponential", "")
}

func readWeibull(t *toml.Table) (array.Time, string) {
	if t = t.Child("weibull"); t == nil {
		return nil, ""
	}
	t.Quiet = true
	var w array.WeibullTime
	t.Quantity("min", &w.Min)
	t.Quantity("scale", &w.Scale)
	t.Number("shape", &w.Shape)
	t.Done()
	return w, fmt.Sprintf("Weibull: minimum %s, scale %s, shape %s", t.Written("min", "0 h"), t.Written("scale", ""), t.Written("shape", ""))
}

func readLognormal(t *toml.Table) (array.Time, string) {
	if t = t.Child("lognormal"); t == nil {
		return nil, ""
	}
	t.Quiet = true
	var l array.Lognormal
	median := t.Quantity("median", &l.Median)
	p90 := t.Quantity("p90", &l.P90)
	t.Done()
	if median && p90 && (l.P90 <= l.Median || l.P90 > maxP90Over*l.Median) {
		t.Wrong("p90", unit.Quote(t.Written("p90", "")), fmt.Sprintf("above the median of %s, and at most %g times as long", t.Written("median", ""), maxP90Over), "")
	}
	return l, fmt.Sprintf("lognormal: half within %s, nine in ten within %s", t.Written("median", ""), t.Written("p90", ""))
}

func readOpenHours(t *toml.Table) (array.Time, string) {
	var o array.OpenHours
	t.Quantity("within", &o.Within)
	const key = "hours"
	n := t.Ask(key)
	if n == nil {
		return nil, ""
	}
	if n.Kind != toml.StringNode {
		t.WrongAt(n, key, n.Shown(), t.Key(key).Expected(), "")
		return nil, ""
	}
	w, err := unit.ParseWeek(n.Text)
	if err != nil {
		e := err.(*unit.Error)
		t.WrongAt(n, key, e.Found, e.Right, e.Mean)
		return nil, ""
	}
	o.Week = w
	return o, fmt.Sprintf("%s of open hours (%s; holidays not known)", t.Written("within", ""), unit.FormatWeek(w))
}
