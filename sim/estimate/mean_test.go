package estimate

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"
)

func TestMeanIsTheLibrarys(t *testing.T) {
	xs := []float64{0, 0, 3.5, 1, 0.25, 7, 0, 2}
	sum, squares := 0.0, 0.0
	for _, x := range xs {
		sum += x
		squares += x * x
	}
	e := Mean(float64(len(xs)), sum, squares)
	m, sd := stat.MeanStdDev(xs, nil)
	se := stat.StdErr(sd, float64(len(xs)))
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"value", e.Value, m}, {"high", e.High, m + 1.959963984540054*se}, {"low", e.Low, math.Max(0, m-1.959963984540054*se)},
		{"relative error", e.RelativeError, se / m},
	} {
		if math.Abs(c.got-c.want) > 1e-14 {
			t.Errorf("%s: %g, want %g", c.what, c.got, c.want)
		}
	}
	if e := Mean(5, 10, 20); e != Exact(2) {
		t.Errorf("equal trials: %+v", e)
	}
}
