package export

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"arrayodds/sim/estimate"

	"github.com/xuri/excelize/v2"
)

// A column that is added once stands in CSV and in a workbook, each with its own
// heading.
func TestColumnsStandInCSVAndWorkbook(t *testing.T) {
	type row struct {
		label string
		meets bool
		price float64
		exact *float64
		times estimate.Estimate
	}
	x := 0.1 + 0.2
	rows := []row{
		{"=one", true, 1234.5, &x, estimate.Estimate{Value: 2, Low: 1, High: math.Inf(1)}},
		{"two", false, math.NaN(), nil, estimate.None()},
	}
	var all columns[row]
	all.add("choice", "Choice", wideWords, func(r row) any { return r.label })
	all.add("meets", "Meets", words, func(r row) any { return r.meets })
	all.add("price", "Price", tenths, func(r row) any { return r.price })
	all.add("exact", "", chance, func(r row) any { return given(r.exact) })
	all.addRatio("times", "Times", hundred, func(r row) estimate.Estimate { return r.times })
	s := all.sheet("Rows", rows)

	var b bytes.Buffer
	if err := writeCSV(&b, s); err != nil {
		t.Fatal(err)
	}
	const want = "choice,meets,price,exact,times,times_low,times_high\r\n'=one,yes,1234.5,0.3,2,1,\r\ntwo,no,,,,,\r\n"
	if b.String() != want {
		t.Errorf("the CSV is\n%s\nwant\n%s", b.String(), want)
	}

	b.Reset()
	if err := writeXLSX(&b, s); err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	got, err := f.GetRows("Rows")
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"Choice|Meets|Price|exact|Times|Times, 95 % low|Times, 95 % high", "=one|yes|1,234.5|3.00E-01|2.00|1.00", "two|no"} {
		if text := strings.Join(got[i], "|"); strings.TrimRight(text, "|") != want {
			t.Errorf("row %d of the workbook is %q, want %q", i+1, text, want)
		}
	}
}

// An infinite figure that is no open end of a ratio is an error that names its
// place, in both.
func TestSheetRefusesWhatIsInfinite(t *testing.T) {
	var all columns[float64]
	all.add("choice", "Choice", words, func(float64) any { return "b" })
	all.add("price", "Price", tenths, func(x float64) any { return x })
	s := all.sheet("Rows", []float64{math.Inf(1)})
	for _, c := range []struct {
		err  error
		want string
	}{
		{writeCSV(&bytes.Buffer{}, s), "b, price: a figure came out as +Inf"},
		{writeXLSX(&bytes.Buffer{}, s), "sheet Rows: Price: a figure came out as +Inf"},
	} {
		if c.err == nil || !strings.HasPrefix(c.err.Error(), c.want) {
			t.Errorf("error %v, want %q", c.err, c.want)
		}
	}
}
