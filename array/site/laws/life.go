package laws

import (
	"fmt"
	"strings"

	"arrayodds/array"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// lifeForms are the laws of life, one a row.
var lifeForms = []form[array.Life]{
	{`{ afr = "1.5 %" }`, []toml.Key{
		{Path: "afr", Called: "yearly failure rate", Kind: toml.Measured, Quantity: toml.Percent, Min: "0.00001 %", Max: "1000 %", Required: true,
			Doc: "A constant rate: failures per drive-year of running."},
	}, readAFR},
	{`{ mtbf = "1000000 h" }`, []toml.Key{
		{Path: "mtbf", Called: "mean time between failures", Kind: toml.Measured, Quantity: toml.Hours, Min: "10 h", Max: "1e10 h", Required: true,
			Doc: "A constant rate as datasheets have it, the mean time between failures: an AFR of 8 760 h ÷ MTBF."},
	}, readMTBF},
	{`{ shape = 1.12, scale = "461386 h", min = "0 h" }`, []toml.Key{
		{Path: "shape", Called: "shape of the wear-out", Kind: toml.Number, Min: "0.2", Max: "20", Required: true, Doc: "The shape of a Weibull law: above 1, drives wear out."},
		{Path: "scale", Called: "characteristic life", Kind: toml.Measured, Quantity: toml.Hours, Min: "10 h", Max: "1e10 h", Required: true,
			Doc: "The age by which 63 % have failed, less the minimum life."},
		{Path: "min", Called: "minimum life", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "50 y", Default: "0 h", Excludes: []string{"shape_error", "scale_error"},
			Doc: "The minimum life; a fit has none."},
		{Path: "shape_error", Called: "error of the shape", Kind: toml.Measured, Quantity: toml.Percent, Min: "0 %", Max: "300 %", Default: "0 %", Excludes: []string{"min"},
			Doc: "The standard error of the shape's logarithm, where a fit gave it."},
		{Path: "scale_error", Called: "error of the characteristic life", Kind: toml.Measured, Quantity: toml.Percent, Min: "0 %", Max: "300 %", Default: "0 %", Excludes: []string{"min"},
			Doc: "The standard error of the scale's logarithm."},
		{Path: "correlation", Called: "correlation of the errors", Kind: toml.Number, Min: "-0.999", Max: "0.999", Default: "0", Doc: "The correlation of the two errors."},
	}, readWeibullLife},
	{`{ afr_by_year = ["2.0 %", "1.2 %"] }`, []toml.Key{
		{Path: "afr_by_year", Called: "yearly failure rates", Kind: toml.List, Quantity: toml.Percent, Min: "0 %", Max: "1000 %", Most: 50, Required: true,
			Right: `a list of 1 to 50 rates in per cent, such as ["2.0 %", "1.2 %"], one of them above 0`,
			Doc:   "The rate in each year of age; the last one holds on."},
	}, readRateByYear},
	{`{ failures = 50, drive_days = 3555491 }`, []toml.Key{
		{Path: "failures", Called: "failures on record", Kind: toml.Whole, Min: "0", Max: "1e9", Required: true,
			Doc: "Failures in a fleet's own record, which leaves the rate as uncertain as it is."},
		{Path: "drive_days", Called: "drive-days on record", Kind: toml.Number, Min: "1", Max: "1e12", Required: true, Doc: "The days that the fleet's drives ran, added up."},
	}, readFieldRecord},
}

// LifeKeys returns the key of a law of life, followed by those of its forms.
func LifeKeys(k toml.Key) []toml.Key { return keysOf(k, lifeForms) }

// ReadLife reads the law by which a drive fails, under the key "life" of its table.
func ReadLife(t *toml.Table, dst *array.Life) {
	const key = "life"
	n := t.Ask(key)
	if n == nil {
		return
	}
	if n.Kind != toml.TableNode {
		t.WrongAt(n, key, n.Shown(), t.Key(key).Expected(), "")
		return
	}
	if life, note, ok := read(t.Inner(key, n), t.Key(key), lifeForms); ok {
		*dst = life
		t.NoteValue(key, note)
	}
}

func readAFR(t *toml.Table) (array.Life, string) {
	var c array.ConstantRate
	t.Quantity("afr", &c.AFR)
	return c, "AFR " + t.Written("afr", "")
}

func readMTBF(t *toml.Table) (array.Life, string) {
	var hours float64
	t.Quantity("mtbf", &hours)
	afr := unit.HoursPerYear / hours
	return array.ConstantRate{AFR: afr}, fmt.Sprintf("MTBF %s, an AFR of %s", t.Written("mtbf", ""), unit.FormatPercent(afr, 3))
}

func readWeibullLife(t *toml.Table) (array.Life, string) {
	var w array.WeibullLife
	t.Number("shape", &w.Shape)
	t.Quantity("scale", &w.Scale)
	t.Quantity("min", &w.Min)
	f := array.FittedWeibull{Shape: w.Shape, Scale: w.Scale}
	t.Quantity("shape_error", &f.ShapeError)
	t.Quantity("scale_error", &f.ScaleError)
	t.Number("correlation", &f.Correlation)
	if f.ShapeError == 0 && f.ScaleError == 0 {
		return w, fmt.Sprintf("Weibull: shape %s, scale %s, minimum %s", t.Written("shape", ""), t.Written("scale", ""), t.Written("min", "0 h"))
	}
	if w.Min > 0 {
		t.Wrong("min", t.Written("min", ""), "no minimum life where shape_error or scale_error is given: a fit has none", "")
	}
	return f, fmt.Sprintf("Weibull, fitted: shape %s ± %s, scale %s ± %s (standard errors of their logarithms, correlation %s)",
		t.Written("shape", ""), t.Written("shape_error", "0 %"), t.Written("scale", ""), t.Written("scale_error", "0 %"), t.Written("correlation", "0"))
}

func readRateByYear(t *toml.Table) (array.Life, string) {
	const key = "afr_by_year"
	n := t.Ask(key)
	if n == nil {
		return nil, ""
	}
	k := t.Key(key)
	if n.Kind != toml.ListNode {
		t.WrongAt(n, key, n.Shown(), k.Expected(), "")
		return nil, ""
	}
	if len(n.Items) == 0 || len(n.Items) > k.Most {
		t.WrongAt(n, key, fmt.Sprintf("%d rates", len(n.Items)), k.Expected(), "")
		return nil, ""
	}
	var r array.RateByYear
	var notes []string
	greatest := 0.
	for _, item := range n.Items {
		if v, note, ok := t.Measure(key, item); ok {
			r.AFR = append(r.AFR, v)
			notes = append(notes, note)
			greatest = max(greatest, v)
		}
	}
	if greatest == 0 && len(r.AFR) == len(n.Items) {
		t.WrongAt(n, key, "no rate above 0", k.Expected(), "")
	}
	return r, "AFR by year of age: " + strings.Join(notes, ", ") + ", and the last from there on"
}

func readFieldRecord(t *toml.Table) (array.Life, string) {
	failures, days := int64(-1), 0.
	t.Integer("failures", &failures)
	t.Number("drive_days", &days)
	if failures < 0 || days == 0 {
		return nil, ""
	}
	f := array.FieldRecord{Failures: float64(failures), DriveDays: days}
	// The mean of the rate's law, as in array.FieldRecord.
	_, most := t.Key("afr").Bounds()
	if afr := (f.Failures + 0.5) / f.DriveDays * unit.HoursPerYear / 24; afr > most {
		t.Wrong("drive_days", fmt.Sprintf("%s failures in %s drive-days, an AFR of %s", t.Written("failures", ""), t.Written("drive_days", ""), unit.FormatPercent(afr, 3)), "a record with an AFR of at most "+t.Key("afr").Max, "")
	}
	return f, fmt.Sprintf("%s failures in %s drive-days", t.Written("failures", ""), t.Written("drive_days", ""))
}
