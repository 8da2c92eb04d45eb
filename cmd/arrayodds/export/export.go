// Package export writes the results of commands to files. [Formats] lists the forms
// and which results each takes; a new form is a row there.
//
//   - html: the page that package charts draws.
//   - [JSON]: every figure, for scripts. Keys and their order are fixed by the
//     format number it carries.
//   - [CSV]: one row a choice, for whatever reads tables.
//   - [XLSX]: a workbook with the choices, the loss over the years, the
//     assumptions and the cautions, its figures being numbers.
//   - [FitJSON]: every figure of a fitted record, likewise.
//   - [VariedJSON], [VariedCSV], [RankedJSON], [RankedCSV]: sweeps and rankings.
//
// Each writes to an [io.Writer] and knows nothing of files. What is not known
// (a cost without prices, what rests on cameras at a site without them, every
// estimate of a choice that was too busy to be simulated and so stopped by
// "bound") is null or an empty cell, never 0 and never NaN. The same result gives
// the same bytes.
package export

import (
	"fmt"
	"math"
	"strconv"
)

// digits is what a figure is written with: more than any estimate supports, and
// few enough that 41.2 is not written 41.199999999999996.
const digits = 12

// tidy rounds to that many significant digits.
func tidy(x float64) float64 {
	t, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', digits, 64), 64)
	if err != nil { // cannot be: the text is the formatter's own
		return x
	}
	return t
}

// finite refuses what no reader of a table could use. That a figure is not
// known is said before this point, so NaN here is a defect of the program.
func finite(x float64) error {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return fmt.Errorf("a figure came out as %v, which is a defect of this program; please report it with the site file", x)
	}
	return nil
}
