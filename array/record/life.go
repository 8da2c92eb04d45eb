package record

import (
	"fmt"
	"math"
	"strconv"

	"arrayodds/array"
)

// Life writes a law that a record can give, a [array.FittedWeibull], a
// [array.WeibullLife] or a [array.FieldRecord], as a site file takes it: `{ shape = 1.12, scale =
// "461386 h" }`. It is empty for any other.
func Life(l array.Life) string {
	switch l := l.(type) {
	case array.WeibullLife:
		return fmt.Sprintf(`{ shape = %s, scale = "%s h" }`, significant(l.Shape, 5), significant(l.Scale, 6))
	case array.FittedWeibull:
		return fmt.Sprintf(`{ shape = %s, scale = "%s h", shape_error = "%s %%", scale_error = "%s %%", correlation = %s }`,
			significant(l.Shape, 5), significant(l.Scale, 6),
			significant(100*l.ShapeError, 3), significant(100*l.ScaleError, 3), significant(l.Correlation, 3))
	case array.FieldRecord:
		days := l.DriveDays
		if days >= 1000 {
			days = math.Round(days)
		}
		return fmt.Sprintf("{ failures = %.0f, drive_days = %s }", l.Failures, significant(days, 12))
	}
	return ""
}

// significant is x in so many digits, without an exponent.
func significant(x float64, digits int) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
	if err != nil || math.IsInf(rounded, 0) {
		rounded = x
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}
