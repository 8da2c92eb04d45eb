package axis

import (
	"math"
	"slices"
	"strings"
	"testing"

	"arrayodds/array"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// drawn returns the life of the drives with their inputs at some points of the unit
// square, from a file with that life.
func drawn(t *testing.T, life string, points int) (all []array.Life) {
	t.Helper()
	s := opened(t, strings.Replace(small, `{ afr = "1.5 %" }`, life, 1))
	inputs := s.Inputs()
	inputs = slices.DeleteFunc(inputs, func(in Input) bool { return !strings.Contains(in.Axis.Path, "life") })
	for i := range points {
		for j := range points {
			u := []float64{(float64(i) + 0.5) / float64(points), (float64(j) + 0.5) / float64(points)}
			f, err := s.With(Draw(inputs, u[:len(inputs)])...)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, f.Site.Drives[0].Life)
			if len(inputs) == 1 {
				break
			}
		}
	}
	return all
}

// A record's rate has the mean and the variance of its Gamma law, and is known.
func TestRecordIsDrawn(t *testing.T) {
	t.Parallel()
	var rates []float64
	for _, l := range drawn(t, "{ failures = 3, drive_days = 40000 }", 400) {
		rates = append(rates, l.(array.ConstantRate).AFR)
	}
	want := distuv.Gamma{Alpha: 3.5, Beta: 40000. / 365}
	mean, variance := stat.MeanVariance(rates, nil)
	if math.Abs(mean/want.Mean()-1) > 1e-3 || math.Abs(variance/want.Variance()-1) > 0.02 {
		t.Errorf("mean %g, variance %g; gonum %g, %g", mean, variance, want.Mean(), want.Variance())
	}
}

// The parameters of a fit have its errors and their correlation, and none of their own.
func TestFitIsDrawn(t *testing.T) {
	t.Parallel()
	var shapes, scales []float64
	for _, l := range drawn(t, `{ shape = 1.2, scale = "400000 h", shape_error = "10 %", scale_error = "20 %", correlation = -0.6 }`, 60) {
		switch l := l.(type) {
		case array.WeibullLife:
			shapes, scales = append(shapes, math.Log(l.Shape)), append(scales, math.Log(l.Scale))
		case array.FittedWeibull:
			if l.ShapeError != 0 || l.ScaleError != 0 {
				t.Fatalf("%+v", l)
			}
			shapes, scales = append(shapes, math.Log(l.Shape)), append(scales, math.Log(l.Scale))
		default:
			t.Fatalf("%T", l)
		}
	}
	got := []float64{stat.StdDev(shapes, nil), stat.StdDev(scales, nil), stat.Correlation(shapes, scales, nil), stat.Mean(shapes, nil), stat.Mean(scales, nil)}
	for i, want := range []float64{0.1, 0.2, -0.6, math.Log(1.2), math.Log(400000)} {
		if math.Abs(got[i]-want) > 0.02*math.Abs(want) {
			t.Errorf("%d: %g, want %g", i, got[i], want)
		}
	}
}

// Ranges are triangular about the likely value, on a scale of ratios.
func TestRangeIsTriangular(t *testing.T) {
	t.Parallel()
	s := opened(t, strings.Replace(small, `"1.5 %"`, `{ low = "0.5 %", likely = "1 %", high = "8 %" }`, 1))
	in := s.Inputs()[0]
	law := distuv.NewTriangle(math.Log(0.5), math.Log(8), math.Log(1), nil)
	for _, u := range []float64{0.001, 0.2, 0.25, 0.5, 0.9, 0.999} {
		if got, want := in.At(u).Shown, math.Exp(law.Quantile(u)); math.Abs(got/want-1) > 1e-12 {
			t.Errorf("at %g: %g, want %g", u, got, want)
		}
	}
	if called := in.Axis.Called(); called != "yearly failure rate of the 12 TB drives" {
		t.Errorf("called %q", called)
	}
}
