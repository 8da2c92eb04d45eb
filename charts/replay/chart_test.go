package replay

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"arrayodds/array/unit"
	"arrayodds/charts/chartstest"
	"arrayodds/charts/draw"
	"arrayodds/sim/history"
	"arrayodds/sim/trace"
)

// One series of each kind that only this page draws is golden.
func TestKinds(t *testing.T) {
	t.Parallel()
	all, _ := replayedSample().withLives(lossLife(), queuedLife()).charts()
	chartstest.CheckKinds(t, all, "running", "waiting", "queued", "rebuilding", "down", "defect", "loss", "mark")
}

// queuedLife has a rebuild that waits for another.
func queuedLife() trace.Life {
	v := newInvented(5*unit.HoursPerYear, 1, 1, 8, 2, 30*day)
	v.outage(1, 100*day, 20, 6, 19)
	return v.finished()
}

func sampleNarrator(l trace.Life) narrator { return replayedSample().withLives(l).narrators()[0] }

// kindOf is the renderer of a state, as replay.js names it.
var kindOf = map[trace.State]string{trace.Waiting: "waiting", trace.Queued: "queued", trace.Rebuilding: "rebuilding", trace.Down: "down"}

// checkSpans holds what is drawn of a life between two hours against its spans: each
// in its bay's row, below the one that is left for the names of losses, cut at the ends.
func checkSpans(t *testing.T, o chartstest.Options, l trace.Life, from, to, origin, unit float64) {
	t.Helper()
	at := func(hours float64) float64 { return (min(max(hours, from), to) - origin) / unit }
	for state, kind := range kindOf {
		var want [][]float64
		for _, s := range l.Spans {
			if s.State == state && s.To >= from && s.From <= to {
				want = append(want, []float64{at(s.From), at(s.To), float64(s.Bay + 1)})
			}
		}
		n := 0
		for _, series := range o.All(kind, "") {
			for _, i := range series.Items {
				n++
				drawn := func(w []float64) bool { return slices.EqualFunc(i.Value, w, alike) }
				if !slices.ContainsFunc(want, drawn) {
					t.Errorf("%s is drawn at %v, want it among %v", kind, i.Value, want)
				}
			}
		}
		if n != len(want) {
			t.Errorf("%d spans of %s are drawn, want %d", n, kind, len(want))
		}
	}
	running := o.One(t, "running", "running")
	if len(running.Items) != l.Bays {
		t.Errorf("%d bays run, want %d", len(running.Items), l.Bays)
	}
	for b, i := range running.Items {
		chartstest.CheckNear(t, "running", i.Value, math.Round(at(from)*1e6)/1e6, math.Round(at(to)*1e6)/1e6, float64(b+1))
	}
}

// alike reports whether two values are one, to the six decimals that are drawn.
func alike(a, b float64) bool { return math.Abs(a-b) <= 1e-6 }

func bayNames(n int) []string {
	names := []string{""}
	for b := range n {
		names = append(names, fmt.Sprintf("bay %d", b+1))
	}
	return names
}

func TestLifeChart(t *testing.T) {
	t.Parallel()
	l := lossLife()
	c := sampleNarrator(l).lifeChart()
	o := chartstest.Decode(t, c)
	o.X.CheckSpan(t, 0, 5, 0)
	if !slices.Equal(o.Y.Rows, bayNames(8)) {
		t.Errorf("rows %q", o.Y.Rows)
	}
	checkSpans(t, o, l, 0, l.Horizon, 0, unit.HoursPerYear)
	fails, sectors, losses := 0, 0, 0
	for _, e := range l.Events {
		x := math.Round(e.At/unit.HoursPerYear*1e6) / 1e6
		switch e.Kind {
		case history.Fails:
			i := o.One(t, "scatter", "a drive fails").Items[fails]
			chartstest.CheckNear(t, "a failure", i.Value, x, float64(e.Bay+1))
			fails++
		case history.MeetsSector:
			chartstest.CheckNear(t, "a sector", o.One(t, "scatter", "unreadable sector met").Items[sectors].Value, x, float64(e.Bay+1))
			sectors++
		case history.LosesSet:
			losses++
			o.One(t, "loss", "footage is lost").CheckItems(t, []float64{x, 0, 1})
		}
	}
	if n := len(o.One(t, "scatter", "a drive fails").Items); n != fails || fails != 6 || sectors != 1 || losses != 1 {
		t.Errorf("%d failures are drawn of %d; %d sectors, %d losses", n, fails, sectors, losses)
	}
	if present, met := o.One(t, "defect", "latent defect").Items, o.One(t, "scatter", "defect met").Items; len(present) != len(l.Defects) || len(met) != 2 {
		t.Errorf("%d latent defects are drawn of %d, %d as met", len(present), len(l.Defects), len(met))
	}
	if !strings.Contains(c.Alt, "footage is lost once, on day 814") {
		t.Errorf("what is heard: %q", c.Alt)
	}
	// 30.5 h into the week is Tuesday 06:30, 203.11 days later Tuesday 09:08.
	o.One(t, "waiting", "").Items[0].CheckTip(t, "bay 6", "failed, waiting for a drive, 26 hours", "day 204, 09:08 to day 205, 11:32")
	o.One(t, "scatter", "a drive fails").Items[0].CheckTip(t, "day 204 (Tuesday), 09:08", "the drive in bay 6 fails")
	o.One(t, "loss", "").Items[0].CheckTip(t, "day 814 (Wednesday), 06:58", "The array is lost")
	o.One(t, "defect", "").Items[0].CheckTip(t, "bay 1", "a latent defect, cleared after 41 days", "day 31, 06:30 to day 72, 06:30")
}

// The days around a loss begin two days before the first of its failures and end half
// a day after the array starts again, counted from the loss.
func TestCloseChart(t *testing.T) {
	t.Parallel()
	l := lossLife()
	loss := 813.02 * day
	c := sampleNarrator(l).closeChart()
	o := chartstest.Decode(t, c)
	o.X.CheckSpan(t, -96, 48, 24)
	if o.X.Words != "signed" || o.X.Name != "hours before and after footage was lost" || c.Title != "The days around the first loss" {
		t.Errorf("%s: %q in %q", c.Title, o.X.Name, o.X.Words)
	}
	checkSpans(t, o, l, 811.09*day-48, loss+33.7+12, loss, 1)
	o.One(t, "loss", "").CheckItems(t, []float64{0, 0, 1})
	o.One(t, "scatter", "a drive fails").CheckItems(t, []float64{-1.93 * 24, 4}, []float64{-1.1 * 24, 7}, []float64{0, 1})
	o.One(t, "scatter", "unreadable sector met").CheckItems(t, []float64{-0.32 * 24, 4})
	o.One(t, "scatter", "defect met").CheckItems(t, []float64{-1.1 * 24, 3}, []float64{-1.1 * 24, 8})
	// The defect of bay 3 was there before.
	if first := o.One(t, "defect", "").Items[0].Value; !slices.EqualFunc(first, []float64{-1.93*24 - 48, -1.1 * 24, 3}, alike) {
		t.Errorf("the first defect is drawn at %v", first)
	}

	// Without a loss it is the longest outage, counted from its failure.
	l = quietLife()
	c = sampleNarrator(l).closeChart()
	o = chartstest.Decode(t, c)
	o.X.CheckSpan(t, -48, 60, 12)
	if c.Title != "The longest outage" || o.X.Name != "hours before and after the drive failed" {
		t.Errorf("%s: %q", c.Title, o.X.Name)
	}
	checkSpans(t, o, l, 1207.31*day-48, 1207.31*day+22.3+19.4+12, 1207.31*day, 1)
	o.One(t, "waiting", "").CheckItems(t, []float64{0, 22.3, 5})
	o.One(t, "rebuilding", "").CheckItems(t, []float64{22.3, 41.7, 5})
}

// What began before the days that are drawn, or ends after them, is cut.
func TestCloseChartCutsSpans(t *testing.T) {
	t.Parallel()
	v := newInvented(5*unit.HoursPerYear, 1, 1, 8, 2, 0)
	v.outage(1, 100*day, 90, 0, 100) // the longest
	v.outage(3, 97*day, 60, 0, 15)
	v.outage(5, 107*day, 40, 0, 20)
	l := v.finished()
	from, to := 100*day-48, 100*day+190+12
	o := chartstest.Decode(t, sampleNarrator(l).closeChart())
	checkSpans(t, o, l, from, to, 100*day, 24)
	waiting := o.One(t, "waiting", "").Items
	if len(waiting) != 3 || !slices.EqualFunc(waiting[0].Value, []float64{-2, -0.5, 4}, alike) || !slices.EqualFunc(waiting[2].Value, []float64{7, 7 + 34./24, 6}, alike) {
		t.Errorf("waits are drawn at %v", waiting)
	}
}

func TestHeldChart(t *testing.T) {
	t.Parallel()
	o := chartstest.Decode(t, sampleNarrator(lossLife()).heldChart())
	o.X.CheckSpan(t, 0, 5, 0)
	years := func(days float64) float64 { return math.Round(days/365*1e6) / 1e6 }
	// It fills in 30.4 days, is lost with all of it, starts again 33.7 h later and
	// fills anew.
	again := 813.02 + 33.7/24
	o.One(t, "line", "footage held").CheckItems(t, []float64{0, 0}, []float64{years(30.4), 30.4}, []float64{years(813.02), 30.4}, []float64{years(813.02), 0},
		[]float64{years(again), 0}, []float64{years(again + 30.4), 30.4}, []float64{5, 30.4})
	lost := o.One(t, "scatter", "footage is lost")
	lost.CheckItems(t, []float64{years(813.02), 30.4})
	lost.Items[0].CheckTip(t, "day 814 (Wednesday), 06:58", "30.4 days of footage lost", "1 338 camera-days destroyed") // 44 cameras
	if lost.Items[0].Label != "−30.4 d" || lost.Symbol != draw.PointerDown {
		t.Errorf("the loss is labelled %q", lost.Items[0].Label)
	}
}

// The choice's own outage: 26 h of waiting, and 12 TB at 170 MB/s.
func TestRebuildCharts(t *testing.T) {
	t.Parallel()
	r := replayedSample()
	all := r.rebuildCharts()
	if len(all) != 2 {
		t.Fatalf("%d charts", len(all))
	}
	rebuild := 12e12 / 170e6 / 3600
	done, chances := chartstest.Decode(t, all[0]), chartstest.Decode(t, all[1])
	for _, o := range []chartstest.Options{done, chances} {
		o.X.CheckSpan(t, 0, 48, 12) // 6 h, doubled until it holds 45.6
	}
	done.Y.CheckSpan(t, 0, 1, 0.25)
	line := done.One(t, "line", "share rebuilt").Items
	if len(line) != 47 {
		t.Errorf("%d hours are drawn, want 46 and the last", len(line))
	}
	for h, i := range line[:46] {
		want := max(0, (float64(h)-26)/rebuild)
		if i.Value[0] != float64(h) || math.Abs(i.Value[1]-want) > 5e-5 {
			t.Errorf("after %d h it says %v, want %v", h, i.Value, want)
		}
	}
	chartstest.CheckNear(t, "the end", line[46].Value, math.Round((26+rebuild)*1e6)/1e6, 1)
	// Half is rebuilt in the 36th hour.
	done.One(t, "mark", "the hour chosen").CheckItems(t, []float64{36, 0})
	chances.One(t, "mark", "the hour chosen").CheckItems(t, []float64{36, *chances.Y.Min})
	// Six drives at 1.5 % a year, from the failure on; eight errors in 1e15 bytes read
	// of all six, from the first hour of the rebuild on.
	for _, i := range chances.One(t, "line", "further failure").Items {
		if want := math.Log10(-math.Expm1(-6 * 0.015 / 8760 * i.Value[0])); math.Abs(i.Value[1]-want) > 1e-5 {
			t.Errorf("a further failure after %v h is at %v, want %v", i.Value[0], i.Value[1], want)
		}
	}
	sectors := chances.One(t, "line", "unreadable sector").Items
	for _, i := range sectors {
		read := (i.Value[0] - 26) / rebuild * 12e12 * 6
		if want := math.Log10(-math.Expm1(-8 * read / 1e15)); math.Abs(i.Value[1]-want) > 1e-5 {
			t.Errorf("an unreadable sector after %v h is at %v, want %v", i.Value[0], i.Value[1], want)
		}
	}
	if len(sectors) != 20 || sectors[0].Value[0] != 27 {
		t.Errorf("%d points, from %v", len(sectors), sectors[0].Value)
	}
	chances.Y.CheckSpan(t, -6, 0, 1)
}
