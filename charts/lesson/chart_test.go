package lesson

import (
	"math"
	"slices"
	"testing"

	"arrayodds/charts/chartstest"
	"arrayodds/charts/draw"
)

func TestLessonChart(t *testing.T) {
	t.Parallel()
	l := lessonSample()
	for i, want := range []struct {
		low  float64 // of the scale
		rows []string
	}{
		{-4, []string{"8 TB, 11 drives", "12 TB, 8 drives (now)", "18 TB, 6 drives", "24 TB, 5 drives (asked)"}}, // two decades at the least
		{-4, []string{"4 h", "1 day (now)", "3 days", "7 days (asked)", "30 days"}},
		{-7, []string{"single parity, 8 drives (now)", "double parity, 9 drives (asked)"}}, // from 4.7e-7
	} {
		c := l.chart(i + 1)
		o := chartstest.Decode(t, c)
		o.X.CheckSpan(t, want.low, -2, 1)
		if !slices.Equal(o.Y.Rows, want.rows) {
			t.Errorf("question %d: rows %q, want %q", i+1, o.Y.Rows, want.rows)
		}
		q := l.Questions[i]
		for row, p := range q.Points {
			if p.Absent != "" {
				if len(o.All("scatter", want.rows[row])) > 0 || len(c.Notes) != 1 {
					t.Errorf("%s has no figure and is drawn, or no note says so: %q", p.Text, c.Notes)
				}
				continue
			}
			e := p.Loss
			point := o.One(t, "scatter", want.rows[row])
			point.CheckItems(t, []float64{math.Log10(e.Value), float64(row)})
			o.One(t, "across", want.rows[row]).CheckItems(t, []float64{math.Log10(e.Low), math.Log10(e.High), float64(row), 0, 0})
			look := map[int]string{q.Before: draw.Teal, q.After: draw.Orange}[row]
			if look == "" {
				look = draw.Slate
			}
			if point.Colour != look || point.Hollow != (look == draw.Slate) {
				t.Errorf("%s is %s, hollow %v", p.Text, point.Colour, point.Hollow)
			}
		}
		// The prediction comes in the last series, which the page's script fills.
		last := len(o.Series) - 1
		if mine := o.Series[last]; mine.Name != "your prediction" || len(mine.Items) > 0 || guessSeries(c) != last {
			t.Errorf("question %d: the last series is %+v, the prediction in %d", i+1, mine, guessSeries(c))
		}
	}
	p := chartstest.Decode(t, l.chart(2)).One(t, "scatter", "4 h").Items[0]
	p.CheckTip(t, "4 h", "1 in 1 410", "95 % interval: 1 in 1 475 to 1 in 1 347") // 7.1e-4 ± 4.5 %
	if p.Label != "1 in 1\u202f410" {
		t.Errorf("beside the point stands %q", p.Label)
	}
}

// A prediction stands at the chance that it makes of the one as it stands, and the
// scale, of the settings' decade and another one, holds it too.
func TestGuessPlaces(t *testing.T) {
	t.Parallel()
	q := lessonSample().Questions[0]
	all := guesses()
	places := guessPlaces(q, all)
	if len(places) != len(all) {
		t.Fatalf("%d places of %d predictions", len(places), len(all))
	}
	for _, c := range []struct {
		place     int
		at        float64
		low, high int
	}{
		{30, math.Log10(1.31e-3), -4, -2},
		{40, math.Log10(1.31e-2), -3, -1},
		{60, 0, -3, 0}, // 1.31 is more than a chance can be
		{0, math.Log10(1.31e-6), -6, -2},
	} {
		p := places[c.place]
		if at := p.Point.Value[0].(float64); math.Abs(at-c.at) > 1e-6 || p.Point.Value[1] != q.After || p.Min != c.low || p.Max != c.high {
			t.Errorf("%s stands at %v in row %v, on a scale from %d to %d; want at %v from %d to %d", all[c.place].Text, at, p.Point.Value[1], p.Min, p.Max, c.at, c.low, c.high)
		}
	}
}
