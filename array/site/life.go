package site

import (
	"fmt"
	"strings"

	"arrayodds/array"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// Limits of the laws of life.
var (
	failureRates = toml.Between{Low: "0.00001 %", High: "1000 %"}
	yearlyRates  = toml.Between{Low: "0 %", High: "1000 %"}
	lives        = toml.Between{Low: "10 h", High: "1e10 h"}
	fitErrors    = toml.Between{Low: "0 %", High: "300 %"}
)

// AFRBounds returns the least and the greatest failure rate per drive-year that a
// site file may give.
func AFRBounds() (low, high float64) { return failureRates.In(toml.Percent) }

// maxAFR is the greatest failure rate, per drive-year, that a record may imply.
const maxAFR = 10

// maxYears bounds the list of failure rates by year of age.
const maxYears = 50

const lifeRight = `one of { afr = "1.5 %" }, { mtbf = "1000000 h" }, { shape = 1.12, scale = "461386 h", min = "0 h" }, { afr_by_year = ["2.0 %", "1.2 %"] }, { failures = 50, drive_days = 3555491 }`

// readLife reads the law by which a drive fails.
func readLife(t *toml.Table, key string, dst *array.Life) {
	n := t.Ask(key, toml.Required, lifeRight)
	if n == nil {
		return
	}
	if n.Kind != toml.TableNode {
		t.WrongAt(n, key, n.Shown(), lifeRight, "")
		return
	}
	l := t.Inner(key, n)
	l.Quiet = true
	before := len(t.Errs)
	var life array.Life
	var told string
	switch l.Form([][]string{{"afr"}, {"mtbf"}, {"shape", "scale", "min", "shape_error", "scale_error", "correlation"}, {"afr_by_year"}, {"failures", "drive_days"}}, lifeRight) {
	case "afr":
		life, told = readAFR(l)
	case "mtbf":
		life, told = readMTBF(l)
	case "shape", "scale", "min", "shape_error", "scale_error", "correlation":
		life, told = readWeibullLife(l)
	case "afr_by_year":
		life, told = readRateByYear(l)
	case "failures", "drive_days":
		life, told = readFieldRecord(l)
	}
	l.Done()
	if len(t.Errs) == before && life != nil {
		*dst = life
		t.NoteValue(key, told)
	}
}

func readAFR(t *toml.Table) (array.Life, string) {
	var c array.ConstantRate
	t.Quantity("afr", toml.Percent, toml.Required, failureRates, &c.AFR)
	return c, "AFR " + t.Written("afr", "")
}

func readMTBF(t *toml.Table) (array.Life, string) {
	var hours float64
	if !t.Quantity("mtbf", toml.Time, toml.Required, lives, &hours) {
		return nil, ""
	}
	afr := array.HoursPerYear / hours
	return array.ConstantRate{AFR: afr}, fmt.Sprintf("MTBF %s, an AFR of %s", t.Written("mtbf", ""), unit.FormatPercent(afr, 3))
}

func readWeibullLife(t *toml.Table) (array.Life, string) {
	var w array.WeibullLife
	t.Number("shape", toml.Required, shapes, &w.Shape)
	t.Quantity("scale", toml.Time, toml.Required, lives, &w.Scale)
	t.Quantity("min", toml.Time, toml.Default("0 h"), anyTime, &w.Min)
	f := array.FittedWeibull{Shape: w.Shape, Scale: w.Scale}
	t.Quantity("shape_error", toml.Percent, toml.Default("0 %"), fitErrors, &f.ShapeError)
	t.Quantity("scale_error", toml.Percent, toml.Default("0 %"), fitErrors, &f.ScaleError)
	t.Number("correlation", toml.Default(0.0), toml.Limits{Low: -0.999, High: 0.999}, &f.Correlation)
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
	right := fmt.Sprintf(`a list of 1 to %d rates in per cent, such as ["2.0 %%", "1.2 %%"], one of them above 0`, maxYears)
	n := t.Ask("afr_by_year", toml.Required, right)
	if n == nil {
		return nil, ""
	}
	if n.Kind != toml.ListNode {
		t.WrongAt(n, "afr_by_year", n.Shown(), right, "")
		return nil, ""
	}
	if len(n.Items) == 0 || len(n.Items) > maxYears {
		t.WrongAt(n, "afr_by_year", fmt.Sprintf("%d rates", len(n.Items)), right, "")
		return nil, ""
	}
	var r array.RateByYear
	var told []string
	greatest := 0.
	for _, item := range n.Items {
		if v, written, ok := t.Measure("afr_by_year", item, toml.Percent, yearlyRates); ok {
			r.AFR = append(r.AFR, v)
			told = append(told, written)
			greatest = max(greatest, v)
		}
	}
	if greatest == 0 && len(r.AFR) == len(n.Items) {
		t.WrongAt(n, "afr_by_year", "no rate above 0", right, "")
	}
	return r, "AFR by year of age: " + strings.Join(told, ", ") + ", and the last from there on"
}

func readFieldRecord(t *toml.Table) (array.Life, string) {
	failures, days := int64(-1), 0.
	t.Integer("failures", toml.Required, toml.Limits{Low: 0, High: 1e9}, &failures)
	t.Number("drive_days", toml.Required, toml.Limits{Low: 1, High: 1e12}, &days)
	if failures < 0 || days == 0 {
		return nil, ""
	}
	f := array.FieldRecord{Failures: float64(failures), DriveDays: days}
	// The mean of the rate's law, as in array.FieldRecord.
	if afr := (f.Failures + 0.5) / f.DriveDays * array.HoursPerYear / 24; afr > maxAFR {
		t.Wrong("drive_days", fmt.Sprintf("%s failures in %s drive-days, an AFR of %s", t.Written("failures", ""), t.Written("drive_days", ""), unit.FormatPercent(afr, 3)), "a record with an AFR of at most 1000 %", "")
	}
	return f, fmt.Sprintf("%s failures in %s drive-days", t.Written("failures", ""), t.Written("drive_days", ""))
}
