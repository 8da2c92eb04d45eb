package draw

import (
	"math"
	"slices"
	"testing"

	"arrayodds/sim/estimate"
)

// An axis of chances holds all intervals by whole decades, at least two, and a tick in
// so many that there are nine at the most, counted from the high end.
func TestNewLogAxis(t *testing.T) {
	t.Parallel()
	e := func(low, value, high float64) estimate.Estimate {
		return estimate.Estimate{Low: low, Value: value, High: high}
	}
	for _, c := range []struct {
		name string
		all  []estimate.Estimate
		want LogAxis
	}{
		{"nothing", nil, LogAxis{-2, 0, 1}},
		{"zero alone", []estimate.Estimate{{}}, LogAxis{-2, 0, 1}},
		{"one", []estimate.Estimate{e(0.002, 0.003, 0.004)}, LogAxis{-4, -2, 1}},
		{"a likely one", []estimate.Estimate{e(0.4, 0.5, 0.6)}, LogAxis{-2, 0, 1}},
		{"a decade for 0", []estimate.Estimate{e(2e-5, 3e-5, 4e-5), {}}, LogAxis{-6, -4, 1}},
		{"nine ticks", []estimate.Estimate{e(2e-8, 3e-8, 4e-8), e(0.2, 0.3, 0.4)}, LogAxis{-8, 0, 1}},
		{"more than nine", []estimate.Estimate{e(2e-10, 3e-10, 4e-10), e(0.02, 0.03, 0.04)}, LogAxis{-11, -1, 2}},
		{"not seen", []estimate.Estimate{e(0, 0, 3e-4)}, LogAxis{-6, -3, 1}},
		{"an interval from 0", []estimate.Estimate{e(0, 2e-4, 3e-4)}, LogAxis{-7, -3, 1}}, // cut three decades below
	} {
		if got := NewLogAxis(c.all); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

func TestWhisker(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		e    estimate.Estimate
		want Whisker
	}{
		{estimate.Estimate{Low: 1e-4, Value: 1e-3, High: 1e-2}, Whisker{-3, -4, -2, false}},
		{estimate.Estimate{Low: 1e-7, Value: 1e-3, High: 1e-2}, Whisker{-3, -6, -2, true}},
		{estimate.Estimate{Low: 0, Value: 1e-3, High: 1e-2}, Whisker{-3, -6, -2, true}},
		{estimate.Estimate{High: 1e-2}, Whisker{-2, -3, -2, true}},
	} {
		if got := WhiskerOf(c.e); got != c.want {
			t.Errorf("%+v lies at %+v, want %+v", c.e, got, c.want)
		}
	}
	if got := BoundedWhiskerOf(estimate.Estimate{Low: 1, Value: 10, High: math.Inf(1)}); got != (Whisker{1, 0, 4, false}) {
		t.Errorf("an interval without an end is drawn as %+v", got)
	}
}

// Ticks are round, within the ends, and no more than asked for; the ends themselves
// where there are not two.
func TestTicks(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		got, want []float64
	}{
		{LinearTicks(0, 10, 6), []float64{0, 2, 4, 6, 8, 10}},
		{LinearTicks(1.5, 4.2, 6), []float64{1.5, 2, 2.5, 3, 3.5, 4}},
		{LinearTicks(0.012, 0.031, 3), []float64{0.02, 0.03}},
		{LinearTicks(3, 3, 6), []float64{3}},
		{LogTicks(4, 170, 6), []float64{5, 10, 20, 50, 100}},
		{LogTicks(1, 1e6, 4), []float64{1, 100, 1e4, 1e6}},
		{LogTicks(1.1, 1.4, 6), []float64{1.1, 1.4}},
		{LogTicks(7, 7, 6), []float64{7}},
	} {
		if !slices.Equal(c.got, c.want) {
			t.Errorf("%v, want %v", c.got, c.want)
		}
	}
}

// A drawing of rows gets five sixths of its height on paper, but what its rows want at
// least, and at most a page.
func TestPaperHeight(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		chart Chart
		want  int
	}{
		{Chart{Height: 440}, 270},
		{Chart{Height: 440, Print: 330}, 330},
		{Chart{Height: 600, Rows: 9}, 500},
		{Chart{Height: 2000, Rows: 9}, 780},
		{Chart{Height: 200, Rows: 9}, 324},
	} {
		if got := c.chart.PaperHeight(); got != c.want {
			t.Errorf("%+v gets %d pixels, want %d", c.chart, got, c.want)
		}
	}
}

func TestMarks(t *testing.T) {
	t.Parallel()
	marks := Marks(make([]struct{}, 9), func(struct{}) string { return "two\nlines" })
	if m := marks[8]; m.Numbered() != "9 · two lines" || m.Colour != Teal || m.Shape != Square {
		t.Errorf("the ninth is %+v", m)
	}
	for n, want := range map[int]int{1: 1, 8: 1, 9: 2, 17: 3} {
		if got := SymbolEvery(n); got != want {
			t.Errorf("of %d points one in %d gets a symbol, want %d", n, got, want)
		}
	}
}
