package evidence

import (
	"math"
	"testing"

	"arrayodds/array"

	"gonum.org/v1/gonum/stat/distuv"
)

// The Gamma law has the mean and the variance of the triangular law of ratios, which
// gonum's quantiles give.
func TestPrior(t *testing.T) {
	t.Parallel()
	for _, r := range []Range{{0.5, 2}, {1, 13 / 0.88}, {0.5, 1}, {0.97, 1.02}, {0.1, 300}} {
		law := distuv.NewTriangle(math.Log(r.Low), math.Log(r.High), 0, nil)
		const n = 400_000
		mean, square := 0.0, 0.0
		for i := range n {
			x := math.Exp(law.Quantile((float64(i) + 0.5) / n))
			mean += x / n
			square += x * x / n
		}
		g, ok := Prior([]Range{r})
		if got := g.Shape / (g.Rate * g.Rate); !ok || math.Abs(g.Mean()/mean-1) > 1e-5 || math.Abs(got/(square-mean*mean)-1) > 1e-3 {
			t.Errorf("%v: mean %v, want %v; variance %v, want %v", r, g.Mean(), mean, got, square-mean*mean)
		}
	}
	// Of two independent ones the means multiply, and so do the means of squares.
	one, _ := Prior([]Range{{0.5, 2}})
	two, _ := Prior([]Range{{0.5, 2}, {0.5, 2}})
	if got, want := 1+1/two.Shape, math.Pow(1+1/one.Shape, 2); math.Abs(got/want-1) > 1e-9 {
		t.Errorf("the squared variation is %v, want %v", got, want)
	}
	if _, ok := Prior(nil); ok {
		t.Error("no range leaves something open")
	}
}

// By hand: 4 failures in 500 000 drive-days are Gamma(4.5, 500 000 days). 3 failures more
// in 100 000 drive-days at twice the hazard make it Gamma(7.5, 700 000 days).
func TestUpdateOfARecord(t *testing.T) {
	t.Parallel()
	record := array.FieldRecord{Failures: 4, DriveDays: 500_000}
	expected := func(l array.Life) float64 { return l.Expected(0, 100_000*24) }
	b := Given(record, "drive_days", nil)
	if got, want := b.Updated(3, 100_000, 2*expected(record), 2), (array.FieldRecord{Failures: 7, DriveDays: 700_000}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	// As a multiplier of the mean rate it is the same law.
	after := b.Before.Updated(3, 2*expected(record))
	if rate := after.Mean() * 4.5 / 500_000; math.Abs(rate/(7.5/700_000)-1) > 1e-12 || after.Shape != 7.5 {
		t.Errorf("%+v", after)
	}
}

// By hand: at 1.5 % a year, half to twice of it, ln 2 = 0.693147: triangular about 0. Its
// mean is that of exp on either side, ½·2(e^d − 1 − d)/d² at d = ±0.693147, so
// (2·0.306853 + 2·0.193147)/(2·0.480453) = 1.040684; its mean square the same at
// ±1.386294: (2·1.613706 + 2·0.636294)/(2·1.921812) = 1.170770. The squared variation is
// 1.170770/1.040684² − 1 = 0.081005, and so a = 12.3449, b = 11.8623. 3 failures where
// 24 drives for 2 years at 1.5 % make 0.72 leave Gamma(15.3449, 12.5823).
func TestUpdateOfAStatedRate(t *testing.T) {
	t.Parallel()
	law := array.ConstantRate{AFR: 0.015}
	hours := 24 * 2 * 8760.0
	expected := func(l array.Life) float64 { return l.Expected(0, hours) }
	b := Given(law, "afr", nil)
	u := b.Updated(3, hours/24, expected(law), 1).(array.UpdatedLife)
	if math.Abs(expected(law)-0.72) > 1e-12 || math.Abs(u.Multiplier.Shape-15.3449) > 0.003 || math.Abs(u.Multiplier.Rate-12.5823) > 0.003 {
		t.Errorf("%v are expected, %+v", expected(law), u)
	}
}

// A range that is next to none is no guess: the rate is known, and a log moves it by
// nothing.
func TestNarrowRange(t *testing.T) {
	t.Parallel()
	law := array.ConstantRate{AFR: 0.015}
	b := Given(law, "afr", []Range{{1 - 1e-6, 1 + 1e-6}})
	u := b.Updated(30, 3650, law.Expected(0, 3650*24), 1).(array.UpdatedLife)
	if b.Ground != groundRange || math.Abs(u.Multiplier.Mean()-1) > 1e-6 || u.Multiplier.Shape < 1e8 {
		t.Errorf("%+v, %+v", b, u)
	}
}

// A range beside a record makes the law wider, and the log tell more: by hand, 4 failures
// have a = 4.5, and a squared variation of (1 + 1/4.5)(1 + 0.081005) − 1 with half to twice,
// of which TestUpdateOfAStatedRate has the second factor and the mean, 1.040684.
func TestRecordWithARange(t *testing.T) {
	t.Parallel()
	record := array.FieldRecord{Failures: 4, DriveDays: 500_000}
	b := Given(record, "failures", []Range{{0.5, 2}})
	want := 1 / ((1+1/4.5)*1.081005 - 1)
	if math.Abs(b.Before.Shape/want-1) > 1e-4 || math.Abs(b.Before.Mean()-1.040684) > 1e-5 {
		t.Errorf("%+v, want a shape of %v", b, want)
	}
	// The rate that is multiplied is the record's mean: 4.5 failures in 500 000 drive-days.
	u := b.Updated(3, 100_000, record.Expected(0, 100_000*24), 1).(array.UpdatedLife)
	yearly := 4.5 / 500_000 * 365 * (want + 3) / (want/1.040684 + 0.9)
	if got := u.Expected(0, 8760); math.Abs(got/yearly-1) > 1e-4 || u.About().Rate == nil {
		t.Errorf("%v a year, want %v", got, yearly)
	}
}
