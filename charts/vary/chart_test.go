package vary

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"arrayodds/charts/chartstest"
	"arrayodds/charts/draw"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// One series of each kind that only these pages draw is golden.
func TestKinds(t *testing.T) {
	t.Parallel()
	all := append(variedSample().charts(), wordsSample().charts()...)
	chartstest.CheckKinds(t, append(all, heatSample(2).charts()...), "mark", "numbered", "cell", "contour")
}

// names are those of the choices in a chart.
func names(v sweep) []string {
	var names []string
	for i, c := range v.Curves {
		names = append(names, fmt.Sprintf("%d · %s", i+1, c.Choice.Label))
	}
	return names
}

// checkCurve holds all that is drawn of a choice against its estimates: a line and a
// band through those that there are, a symbol on every second of the nine values, and
// pointers at the low end for those of 0.
func checkCurve(t *testing.T, o chartstest.Options, v sweep, choice int, of func(study.Point) estimate.Estimate) {
	t.Helper()
	name := names(v)[choice]
	var line, band, none [][]float64
	var dots []float64
	for i, p := range v.Curves[choice].Points {
		x, e := math.Log10(v.Inputs[0].Values[i]), of(p)
		switch {
		case p.Absent != "":
		case e.Value == 0:
			none = append(none, []float64{x, *o.Y.Min})
		default:
			line = append(line, []float64{x, math.Log10(e.Value)})
			band = append(band, []float64{x, math.Log10(e.Low), math.Log10(e.High)})
			if i%2 == 0 {
				dots = append(dots, x)
			}
		}
	}
	o.One(t, "band", name).CheckItems(t, band...)
	// A line is dashed where it leads from or to a value that does not meet the
	// demand, and so may come in pieces that share an end.
	var pieces [][]float64
	for i, s := range o.All("line", name) {
		items := s.Items
		if i > 0 {
			items = items[1:]
		}
		for _, item := range items {
			pieces = append(pieces, item.Value)
		}
	}
	if len(pieces) != len(line) {
		t.Fatalf("the line of %s has %d points, want %d", name, len(pieces), len(line))
	}
	for i := range line {
		chartstest.CheckNear(t, "the line of "+name, pieces[i], line[i]...)
	}
	var seen []float64
	last := ""
	for _, s := range o.All("scatter", name) {
		if s.Symbol == draw.PointerDown {
			s.CheckItems(t, none...)
			none = nil
			continue
		}
		for _, item := range s.Items {
			if len(seen) < len(dots) {
				seen = append(seen, item.Value[0])
			}
			last = item.Label
		}
	}
	chartstest.CheckNear(t, "the symbols of "+name, seen, dots...)
	if none != nil {
		t.Errorf("%s lacks pointers at %v", name, none)
	}
	if last != fmt.Sprint(choice+1) {
		t.Errorf("the line of %s ends in %q", name, last)
	}
}

func TestVariedChart(t *testing.T) {
	t.Parallel()
	v := variedSample()
	v.BreakEven = nil // its points are drawn on top of the curves
	for _, c := range []struct {
		quantity quantity
		of       func(study.Point) estimate.Estimate
	}{
		{v.lossQuantity(), func(p study.Point) estimate.Estimate { return p.Loss }},
		{v.ownQuantity(), func(p study.Point) estimate.Estimate { return p.ToOwn }},
		{v.againstQuantity(), func(p study.Point) estimate.Estimate { return p.Against }},
	} {
		o := chartstest.Decode(t, v.variedChart(c.quantity))
		// 3 % of the span of the values, which are spaced by ratio, at both ends.
		first, last := math.Log10(4), math.Log10(4*math.Pow(2, 8*0.675))
		room := 0.03 * (last - first)
		o.X.CheckSpan(t, first-room, last+room, 0)
		if len(o.X.Ticks) != 5 || o.X.Ticks[1] != (draw.Tick{At: 1, Text: "10"}) {
			t.Errorf("%s: ticks %v", c.quantity.id, o.X.Ticks)
		}
		o.One(t, "mark", "as in the site file").CheckItems(t, []float64{math.Log10(24), *o.Y.Min})
		for i := range v.Curves {
			if i == c.quantity.skip {
				if n := len(o.All("line", names(v)[i])); n > 0 {
					t.Errorf("the choice held against is drawn by %d lines", n)
				}
				continue
			}
			checkCurve(t, o, v, i, c.of)
		}
		if level := o.All("line", "no difference"); c.quantity.times != (len(level) == 1) {
			t.Errorf("%s has %d level lines", c.quantity.id, len(level))
		}
	}
}

func TestVariedLoss(t *testing.T) {
	t.Parallel()
	v := variedSample()
	c := v.variedChart(v.lossQuantity())
	o := chartstest.Decode(t, c)
	o.Y.CheckSpan(t, -12, 0, 2) // from 4.6e-11, and a decade for chances of 0
	// The second choice holds the footage at the first five values.
	second := names(v)[1]
	lines := o.All("line", second)
	if len(lines) != 2 || lines[0].Stroke != "solid" || len(lines[0].Items) != 5 || lines[1].Stroke != "dashed" || len(lines[1].Items) != 5 {
		t.Errorf("lines of %s: %+v", second, lines)
	}
	var hollow, filled int
	for _, s := range o.All("scatter", second) {
		switch {
		case s.Symbol == draw.Circle: // where the goal is met
		case s.Hollow:
			hollow = len(s.Items)
			s.Items[1].CheckTip(t, second, "care.response: 168.9 h", "1 in 60 within 5 years", "95 % interval: 1 in 63.0 to 1 in 58.0", "8 drives", "does not hold the footage") // 0.0166 ± 4 %
		default:
			filled = len(s.Items)
		}
	}
	if filled != 3 || hollow != 2 {
		t.Errorf("%d filled points and %d hollow, want 3 and 2", filled, hollow)
	}
	// The goal is a level line, and a ring on it with its interval where it is met.
	chartstest.CheckNear(t, "the goal", o.One(t, "line", "no difference").Items[0].Value, *o.X.Min, -4)
	o.One(t, "across", second).CheckItems(t, []float64{math.Log10(7.2 * 0.96), math.Log10(7.2 * 1.04), -4, 0, 0})
	ring := o.Series[len(o.Series)-1]
	ring.CheckItems(t, []float64{math.Log10(7.2), -4})
	ring.Items[0].CheckTip(t, second, "7.2 h: a loss chance of 1 in 10 000 within 5 years", "95 % interval: 6.91 to 7.49")
	if !ring.Hollow || !strings.Contains(c.Read, "Both scales are by ratio.") {
		t.Errorf("the ring is %+v; %s", ring, c.Read)
	}
}

// Ratios are in words of times, with a level line at once.
func TestVariedRatios(t *testing.T) {
	t.Parallel()
	v := variedSample()
	o := chartstest.Decode(t, v.variedChart(v.ownQuantity()))
	o.One(t, "line", "no difference").CheckItems(t, []float64{*o.X.Min, 0}, []float64{*o.X.Max, 0})
	if !slices.Contains(o.Y.Ticks, draw.Tick{At: 0, Text: "× 1"}) || !slices.Contains(o.Y.Ticks, draw.Tick{At: -2, Text: "× 0.01"}) {
		t.Errorf("ticks %v", o.Y.Ticks)
	}
	last := o.All("scatter", names(v)[3])[0].Items
	last[len(last)-1].CheckTip(t, names(v)[3], "care.response: 168.9 h", "2 018 times as likely to lose footage than as the site file has it", "95 % interval: ±0.4 %", "10 drives") // (168.9/24)^3.9
	against := chartstest.Decode(t, v.variedChart(v.againstQuantity()))
	dots := against.All("scatter", names(v)[0])[0].Items
	dots[0].CheckTip(t, names(v)[0], "care.response: 4 h", "3 800 times as likely to lose footage than 8 x 12 TB, single parity", "95 % interval: 3 640 to 4 040", "9 drives") // 0.49 ÷ 1.28e-4
}

// Values that are words stand in rows, the choices of a row 15 pixels apart.
func TestVariedRows(t *testing.T) {
	t.Parallel()
	v := wordsSample()
	o := chartstest.Decode(t, v.variedChart(v.lossQuantity()))
	if want := []string{"8 TB", "12 TB", "18 TB"}; !slices.Equal(o.Y.Rows, want) {
		t.Errorf("rows %q, want %q", o.Y.Rows, want)
	}
	o.X.CheckSpan(t, -12, 0, 2)
	for i, name := range names(v) {
		dots, whiskers, numbers := o.All("scatter", name), o.All("across", name), o.All("numbered", name)
		down := float64(15*i - 22)
		for row, p := range v.Curves[i].Points {
			if p.Absent != "" {
				continue
			}
			if len(dots) == 0 || len(numbers) == 0 {
				t.Fatalf("%s has no point in row %d", name, row)
			}
			end, beside := -12.0, 18.0
			if p.Loss.Value > 0 {
				end, beside = math.Log10(p.Loss.High), 8
				dots[0].CheckItems(t, []float64{math.Log10(p.Loss.Value), float64(row)})
				whiskers[0].CheckItems(t, []float64{math.Log10(p.Loss.Low), end, float64(row), down, 0})
				whiskers = whiskers[1:]
			} else {
				dots[0].CheckItems(t, []float64{-12, float64(row)})
				if dots[0].Symbol != draw.PointerLeft {
					t.Errorf("no loss is drawn as %s", dots[0].Symbol)
				}
			}
			numbers[0].CheckItems(t, []float64{end, float64(row), float64(i + 1), down, beside})
			if dots[0].Items[0].Offset[1] != int(down) || dots[0].Hollow == p.Meets {
				t.Errorf("%s, row %d: %v down, hollow %v", name, row, dots[0].Items[0].Offset, dots[0].Hollow)
			}
			dots, numbers = dots[1:], numbers[1:]
		}
		if len(dots)+len(whiskers)+len(numbers) > 0 {
			t.Errorf("%s has points left over", name)
		}
	}
	o.All("scatter", names(v)[0])[0].Items[0].CheckTip(t, names(v)[0], "choices.*.drive: 8 TB", "49 in 100 within 5 years", "95 % interval: 47.0 in 100 to 51.0 in 100", "9 drives")
}

func TestHeatChart(t *testing.T) {
	t.Parallel()
	v := heatSample(2)
	c := v.charts()[0]
	o := chartstest.Decode(t, c)
	// Six values that double, and five a unit apart: cells reach half a step beyond.
	step := math.Log10(2)
	o.X.CheckSpan(t, math.Log10(4)-step/2, math.Log10(128)+step/2, 0)
	o.Y.CheckSpan(t, 0.5, 5.5, 0)
	cells := o.One(t, "cell", "loss").Items
	if len(cells) != 30 {
		t.Fatalf("%d cells, want 30", len(cells))
	}
	for k, cell := range cells {
		i, j, sign := k%6, k/6, 0.0
		switch {
		case i == 0 && j == 0:
			sign = noneCell
		case i == 5 && j == 4:
			sign = absentCell
		case i == 5 && j == 3:
			sign = hatchedCell
		}
		left := math.Log10(4) + (float64(i)-0.5)*step
		chartstest.CheckNear(t, fmt.Sprintf("cell %d", k), cell.Value, left, left+step, float64(j)+0.5, float64(j)+1.5, sign)
		if (sign == noneCell || sign == absentCell) != (cell.Colour == draw.Paper) {
			t.Errorf("cell %d of sign %v is %s", k, sign, cell.Colour)
		}
	}
	name := names(v)[0]
	cells[1].CheckTip(t, name, "care.response: 8 h", "drives.12 TB.life.afr: 1 %", "1 in 5 600 within 5 years", "95 % interval: 1 in 5 840 to 1 in 5 390", "8 drives") // 1e-3·(8/24)^1.2/1.5
	cells[29].CheckTip(t, name, "care.response: 128 h", "drives.12 TB.life.afr: 5 %", "14 drives, and the recorder has 12 bays")
	// Along a contour the chance is that of its name: on grid lines of the sample's law,
	// by its formula, as well as straight lines between cells do.
	for _, s := range o.All("contour", "1 in 1\u202f000") {
		for _, p := range s.Items {
			x, y := p.Value[0], p.Value[1]
			if loss := math.Log10(1e-3) + 1.2*(x-math.Log10(24)) + math.Log10(y/1.5); math.Abs(loss+3) > 0.02 {
				t.Errorf("the contour of 1 in 1000 goes through (%v, %v), where the chance is 10^%v", x, y, loss)
			}
		}
	}
	if len(o.All("contour", "1 in 1\u202f000")) != 1 || len(o.All("contour", "")) != 3 {
		t.Errorf("%d contours", len(o.All("contour", "")))
	}
	own := o.One(t, "scatter", "as in the site file")
	own.CheckItems(t, []float64{math.Log10(24), 1.5})
	own.Items[0].CheckTip(t, name, "as in the site file", "1 in 1 000 within 5 years", "95 % interval: 1 in 1 031 to 1 in 970")
	// A choice that does not hold the footage has a ring in each cell.
	for k, cell := range chartstest.Decode(t, v.charts()[1]).One(t, "cell", "loss").Items {
		if int(cell.Value[4])&shortCell == 0 {
			t.Errorf("cell %d of the second choice has no ring", k)
		}
	}
}
