package site

import (
	"fmt"
	"strings"

	"arrayodds/array"
	"arrayodds/array/unit"
)

// Limits of the laws of life.
var (
	failureRates = between{"0.00001 %", "1000 %"}
	yearlyRates  = between{"0 %", "1000 %"}
	lives        = between{"10 h", "1e10 h"}
	fitErrors    = between{"0 %", "300 %"}
)

// maxAFR is the greatest failure rate, per drive-year, that a record may imply.
const maxAFR = 10

// maxYears bounds the list of failure rates by year of age.
const maxYears = 50

const lifeRight = `one of { afr = "1.5 %" }, { mtbf = "1000000 h" }, { shape = 1.12, scale = "461386 h", min = "0 h" }, { afr_by_year = ["2.0 %", "1.2 %"] }, { failures = 50, drive_days = 3555491 }`

// life reads the law by which a drive fails.
func (t *table) life(key string, dst *array.Life) {
	n := t.ask(key, required, lifeRight)
	if n == nil {
		return
	}
	if n.kind != tables {
		t.wrongAt(n, key, n.shown(), lifeRight, "")
		return
	}
	l := t.in(n, path(t.path, key), path(t.kind, key))
	l.quiet = true
	before := len(t.errs)
	var life array.Life
	var told string
	switch l.form([][]string{{"afr"}, {"mtbf"}, {"shape", "scale", "min", "shape_error", "scale_error", "correlation"}, {"afr_by_year"}, {"failures", "drive_days"}}, lifeRight) {
	case "afr":
		life, told = l.afr()
	case "mtbf":
		life, told = l.mtbf()
	case "shape", "scale", "min", "shape_error", "scale_error", "correlation":
		life, told = l.weibullLife()
	case "afr_by_year":
		life, told = l.rateByYear()
	case "failures", "drive_days":
		life, told = l.fieldRecord()
	}
	l.done()
	if len(t.errs) == before && life != nil {
		*dst = life
		t.tell(key, told)
	}
}

func (t *table) afr() (array.Life, string) {
	var c array.ConstantRate
	t.quantity("afr", aPercent, required, failureRates, &c.AFR)
	return c, "AFR " + t.written("afr")
}

func (t *table) mtbf() (array.Life, string) {
	var hours float64
	if !t.quantity("mtbf", aTime, required, lives, &hours) {
		return nil, ""
	}
	afr := array.HoursPerYear / hours
	return array.ConstantRate{AFR: afr}, fmt.Sprintf("MTBF %s, an AFR of %s", t.written("mtbf"), unit.FormatPercent(afr, 3))
}

func (t *table) weibullLife() (array.Life, string) {
	var w array.WeibullLife
	t.number("shape", required, shapes, &w.Shape)
	t.quantity("scale", aTime, required, lives, &w.Scale)
	t.quantity("min", aTime, standard("0 h"), anyTime, &w.Min)
	f := array.FittedWeibull{Shape: w.Shape, Scale: w.Scale}
	t.quantity("shape_error", aPercent, standard("0 %"), fitErrors, &f.ShapeError)
	t.quantity("scale_error", aPercent, standard("0 %"), fitErrors, &f.ScaleError)
	t.number("correlation", standard(0.0), limits{-0.999, 0.999}, &f.Correlation)
	if f.ShapeError == 0 && f.ScaleError == 0 {
		return w, fmt.Sprintf("Weibull: shape %s, scale %s, minimum %s", t.written("shape"), t.written("scale"), t.writtenOr("min", "0 h"))
	}
	if w.Min > 0 {
		t.wrong("min", t.written("min"), "no minimum life where shape_error or scale_error is given: a fit has none", "")
	}
	return f, fmt.Sprintf("Weibull, fitted: shape %s ± %s, scale %s ± %s (standard errors of their logarithms, correlation %s)",
		t.written("shape"), t.writtenOr("shape_error", "0 %"), t.written("scale"), t.writtenOr("scale_error", "0 %"), t.writtenOr("correlation", "0"))
}

func (t *table) rateByYear() (array.Life, string) {
	right := fmt.Sprintf(`a list of 1 to %d rates in per cent, such as ["2.0 %%", "1.2 %%"], one of them above 0`, maxYears)
	n := t.ask("afr_by_year", required, right)
	if n == nil {
		return nil, ""
	}
	if n.kind != list {
		t.wrongAt(n, "afr_by_year", n.shown(), right, "")
		return nil, ""
	}
	if len(n.items) == 0 || len(n.items) > maxYears {
		t.wrongAt(n, "afr_by_year", fmt.Sprintf("%d rates", len(n.items)), right, "")
		return nil, ""
	}
	var r array.RateByYear
	var told []string
	greatest := 0.
	for _, item := range n.items {
		if v, written, ok := t.measure("afr_by_year", item, aPercent, yearlyRates); ok {
			r.AFR = append(r.AFR, v)
			told = append(told, written)
			greatest = max(greatest, v)
		}
	}
	if greatest == 0 && len(r.AFR) == len(n.items) {
		t.wrongAt(n, "afr_by_year", "no rate above 0", right, "")
	}
	return r, "AFR by year of age: " + strings.Join(told, ", ") + ", and the last from there on"
}

func (t *table) fieldRecord() (array.Life, string) {
	failures, days := int64(-1), 0.
	t.integer("failures", required, limits{0, 1e9}, &failures)
	t.number("drive_days", required, limits{1, 1e12}, &days)
	if failures < 0 || days == 0 {
		return nil, ""
	}
	f := array.FieldRecord{Failures: float64(failures), DriveDays: days}
	// The mean of the rate's law, as in array.FieldRecord.
	if afr := (f.Failures + 0.5) / f.DriveDays * array.HoursPerYear / 24; afr > maxAFR {
		t.wrong("drive_days", fmt.Sprintf("%s failures in %s drive-days, an AFR of %s", t.written("failures"), t.written("drive_days"), unit.FormatPercent(afr, 3)), "a record with an AFR of at most 1000 %", "")
	}
	return f, fmt.Sprintf("%s failures in %s drive-days", t.written("failures"), t.written("drive_days"))
}
