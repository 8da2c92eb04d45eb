package export

import (
	"fmt"
	"math"
	"strconv"
)

// digits is how many significant digits a figure is written with: more than any
// estimate supports, and few enough that 41.2 is not written 41.199999999999996.
const digits = 12

// tidy returns x rounded to that many significant digits.
func tidy(x float64) float64 {
	t, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', digits, 64), 64)
	if err != nil { // cannot be: the text is the formatter's own
		return x
	}
	return t
}

// finite returns an error for a figure that is NaN or infinite. Figures that are
// not known are left out before this point, so that such a one is a defect of the
// program.
func finite(x float64) error {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return fmt.Errorf("a figure came out as %v, which is a defect of this program; please report it with the site file", x)
	}
	return nil
}
