package replay

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"arrayodds/array/site"
	"arrayodds/array/unit"
	"arrayodds/charts/chartstest"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
	"arrayodds/sim/trace"
)

func narrativeText(r lives) string {
	var b strings.Builder
	for _, t := range r.narrators() {
		fmt.Fprintf(&b, "Life %d. %s\n", t.Number, t.tally())
		for _, l := range t.narrative() {
			fmt.Fprintf(&b, "%s: %s\n", l.When, l.What)
		}
		b.WriteByte('\n')
	}
	return strings.ReplaceAll(b.String(), "\u202f", " ")
}

// The narrative of every kind of life is golden.
func TestNarrative(t *testing.T) {
	t.Parallel()
	r := replayedSample().withLives(lossLife(), quietLife(), stripedLife(), jbodLife())
	text := narrativeText(r)
	r.Choice.Care.Stop = true
	text += "An unreadable sector stops the array.\n\n" + narrativeText(r.withLives(stopLife()))
	r.Choice.Care.Stop, r.Site.Cameras = false, nil
	text += "No cameras.\n\n" + narrativeText(r.withLives(lossLife()))
	chartstest.CheckGolden(t, "narrative.txt", []byte(text))
}

// Times of day follow from the hour of the week at the start: a life that begins
// on Tuesday at 06:30 has its midnight 17 h 30 min later.
func TestClock(t *testing.T) {
	t.Parallel()
	c := clock{trace.Clock{Phase: 30.5}}
	for _, k := range []struct {
		at   float64
		want string
	}{
		{0, "day 1 (Tuesday), 06:30"}, {17.49, "day 1 (Tuesday), 23:59"}, {17.5, "day 2 (Wednesday), 00:00"},
		{17.5 + 24*4, "day 6 (Sunday), 00:00"}, {17.5 + 24*5, "day 7 (Monday), 00:00"}, {17.5 + 24*810 + 3 + 1./6, "day 812 (Monday), 03:10"},
	} {
		if got := c.stamp(k.at); got != k.want {
			t.Errorf("hour %v is %q, want %q", k.at, got, k.want)
		}
	}
	for _, k := range []struct {
		hours float64
		want  string
	}{{0.001, "less than a minute"}, {0.5, "30 minutes"}, {1. / 60, "1 minute"}, {1, "1 hour"}, {6.24, "6.2 hours"}, {31.2, "31 hours"}, {81, "3.4 days"}, {1488, "62 days"},
		{59.6 / 60, "1 hour"}, {47.4, "47 hours"}, {47.6, "2 days"}} {
		if got := lasting(k.hours); got != k.want {
			t.Errorf("%v h is %q, want %q", k.hours, got, k.want)
		}
	}
	if got := cameraSeconds(119.7 / 3600); got != "2 minutes of one camera" {
		t.Errorf("119.7 s of footage are %q", got)
	}
	if got := waitText(47.6); got != "48 h (2 days)" {
		t.Errorf("a wait of 47.6 h is %q", got)
	}
}

func TestWhatAReplayedPageSays(t *testing.T) {
	t.Parallel()
	text := chartstest.CheckPage(t, func() page.Contents { return replayedSample().contents() },
		"drawn from those in which footage is lost",
		"Footage is lost in 1 in 2 100 lives of 5 years (95 % interval: 1 in 2 200 to 1 in 2 010). The other 2 099, in which none is lost, are not shown.",
		"A life is one story out of many: do not read frequencies off it.",
		"RAID is no backup",
		"local law on retention and privacy",
		"qualified people",
		"bay 4 fails",
		"1 338 camera-days",
		"30.4 days",
		"<details><summary>",
		`type="range" id="slow-size"`,
		"the choice’s own",
		"12 TB", "26 h",
		"The days around the first loss", "The longest outage",
		"seed 7",
	)
	if strings.Contains(text, "bay 0") {
		t.Error("bays are not counted from 1")
	}
	without := chartstest.Render(t, replayedSample().contents(), "")
	if !strings.Contains(without, "slow-data") || !strings.Contains(without, "The slow motion. All figures") {
		t.Error("the page without the chart script has lost its sliders")
	}
}

func TestReplayedAsTheyCome(t *testing.T) {
	t.Parallel()
	r := replayedSample()
	r.OnlyLosses = false
	r.Slow = trace.Rebuild{}
	empty := newInvented(5*unit.HoursPerYear, 1, 1, 8, 2, 30*day).finished()
	text := chartstest.CheckPage(t, func() page.Contents { return r.withLives(empty).contents() },
		"as it comes: drawn blindly, not picked", "whether it is in those shown here is chance", "No drive fails and no array is lost.",
		"No drive is out of service", "Nothing happens in this life", "Nothing is rebuilt in this layout",
	)
	if strings.Contains(text, `id="slow-data"`) || strings.Contains(text, "type=\"range\"") {
		t.Error("the page has sliders where nothing is rebuilt")
	}
	for _, c := range []struct {
		loss estimate.Estimate
		want string
	}{
		{estimate.Estimate{Value: 0.61, Low: 0.6, High: 0.62}, "61 in 100"},
		{estimate.Estimate{Value: 0, Low: 0, High: 3e-4}, "Not seen: at most 1 in 3 300"},
		{estimate.Estimate{Value: math.NaN()}, "not known"},
	} {
		r.OnlyLosses, r.Loss = true, c.loss
		chartstest.CheckPage(t, func() page.Contents { return r.contents() }, c.want)
	}
}

func TestReplayedWithoutCameras(t *testing.T) {
	t.Parallel()
	r := replayedSample()
	r.Site.Cameras = nil
	l := lossLife()
	l.Held, l.Destroyed = nil, 0
	text := chartstest.Render(t, r.withLives(l).contents(), chartstest.StandIn)
	if !strings.Contains(text, "there is no footage to count") || strings.Contains(text, "camera-days") && strings.Contains(text, "Gone:") {
		t.Error("the page speaks of footage where there are no cameras")
	}
}

// Of a thousand bays few are drawn, and it is said how many are not; so with
// the lines of the narrative.
func TestVastLife(t *testing.T) {
	t.Parallel()
	r := replayedSample().withLives(vastLife())
	text := chartstest.Render(t, r.contents(), chartstest.StandIn)
	for _, want := range []string{"40 of 1 000 bays are drawn", "more, not told here"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if n := strings.Count(text, `<span class="when">`); n != mostLines {
		t.Errorf("%d lines of the narrative stand on the page, want %d", n, mostLines)
	}
	if !strings.Contains(text, `class="loss"`) {
		t.Error("the loss is not among the lines that stand on the page")
	}
	n := r.narrators()[0]
	rows := n.rows(window{0, n.Horizon})
	if len(rows.row) != mostRows {
		t.Errorf("%d bays drawn, want %d", len(rows.row), mostRows)
	}
	others := map[int]bool{}
	for _, s := range n.Spans {
		if _, drawn := rows.row[s.Bay]; !drawn && s.State != trace.Running {
			others[s.Bay] = true
		}
	}
	if want := fmt.Sprintf("In %d of the others something happens too", len(others)); !strings.Contains(text, want) {
		t.Errorf("the page does not say %q", want)
	}
	for _, b := range []int{431, 433, 438} {
		if _, ok := rows.row[b]; !ok {
			t.Errorf("bay %d is not drawn, though its group is lost", b)
		}
	}
}

// One group of more bays than are drawn: those in which something happens.
func TestWideGroup(t *testing.T) {
	t.Parallel()
	v := newInvented(5*unit.HoursPerYear, 1, 1, 100, 2, 0)
	v.outage(3, 100, 20, 0, 20)
	v.outage(97, 400, 20, 0, 20)
	n := lives{study.Replay{Lives: []trace.Life{v.finished()}}}.narrators()[0]
	rows := n.rows(window{0, n.Horizon})
	if len(rows.row) != 2 || rows.row[3] != 1 || rows.row[97] != 2 {
		t.Errorf("drawn %v, want bays 3 and 97 alone", rows.row)
	}
	if want := "2 of 100 bays are drawn, those in which something happens first. In the others nothing happens in that time."; rows.left != want {
		t.Errorf("said %q, want %q", rows.left, want)
	}
}

// However much happens, what is drawn is bounded and says where it ends.
func TestTooMuchToDraw(t *testing.T) {
	t.Parallel()
	v := newInvented(5*unit.HoursPerYear, 1, 1, 4, 1, 0)
	for i := range 1200 {
		v.outage(i%4, float64(i)*36, 5, 0, 20)
	}
	n := lives{study.Replay{Lives: []trace.Life{v.finished()}}}.narrators()[0]
	c := n.lifeChart()
	if !strings.Contains(strings.Join(c.Notes, " "), "Too much happens to draw it all") {
		t.Errorf("notes: %q", c.Notes)
	}
	if n := len(c.Options); n > 400_000 {
		t.Errorf("%d bytes of options", n)
	}
}

// Two hundred lives are told, and the first of them drawn.
func TestManyLives(t *testing.T) {
	t.Parallel()
	var lives []trace.Life
	for range 200 {
		lives = append(lives, lossLife())
	}
	r := replayedSample().withLives(lives...)
	all, perLife := r.charts()
	if len(perLife) != mostDrawn || len(all) != 3*mostDrawn+2 {
		t.Errorf("%d lives and %d drawings", len(perLife), len(all))
	}
	text := chartstest.Render(t, r.contents(), chartstest.StandIn)
	if n := strings.Count(text, "Not drawn: a page has room"); n != 200-mostDrawn {
		t.Errorf("of %d lives it is said that they are not drawn", n)
	}
	if len(text) > 8_000_000 {
		t.Errorf("the page has %d bytes", len(text))
	}
}

func TestReplayedLabelsAreText(t *testing.T) {
	t.Parallel()
	r := replayedSample()
	r.Site.Name, r.Choice.Label, r.Choice.Drive.Label = chartstest.Hostile, chartstest.Hostile, chartstest.Hostile
	r.Assumptions = []site.Assumption{{Path: chartstest.Hostile, Text: chartstest.Hostile}}
	r.Warnings = []string{chartstest.Hostile}
	chartstest.CheckNoMarkup(t, r.contents())
	text := chartstest.Render(t, r.contents(), chartstest.StandIn)
	if !strings.Contains(text, "Warning: &lt;script&gt;window.hit=1&lt;/script&gt;") {
		t.Error("the label is not shown as text")
	}
}
