package replay

import (
	"slices"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/charts/chartstest"
	"arrayodds/sim/trace"
)

func motionOf(t *testing.T, l trace.Life) motion {
	t.Helper()
	n := sampleNarrator(l)
	m, ok := n.motion(n.marks(n.charts()))
	if !ok {
		t.Fatal("nothing to step through")
	}
	return m
}

// The moments of a life tell its events in turn, with what each bay is in after it.
func TestMotion(t *testing.T) {
	t.Parallel()
	m := motionOf(t, lossLife())
	lines := sampleNarrator(lossLife()).narrative()
	if len(m.Events) != len(lines) || len(m.Groups) != 1 || m.Groups[0].Name != "" || len(m.Groups[0].Bays) != 8 {
		t.Fatalf("%d of %d events, groups %+v", len(m.Events), len(lines), m.Groups)
	}
	find := func(begins string, from int) int {
		i := slices.IndexFunc(m.Events[from:], func(e motionEvent) bool { return strings.HasPrefix(e.What, begins) })
		if i < 0 {
			t.Fatalf("nothing begins %q", begins)
		}
		return from + i
	}
	fails := find("The drive in bay 6 fails", 0)
	loss := find("The array is lost", 0)
	for _, c := range []struct {
		at           int
		states, held string
	}{
		{fails, "rrrrrwrr", "30.4 d of footage held"},
		{find("The rebuild of bay 6 begins", fails), "rrrrrbrr", "30.4 d of footage held"},
		{find("Bay 6 is as good", fails), "rrrrrrrr", "30.4 d of footage held"},
		{loss - 1, "wrrbrrwr", "30.4 d of footage held"}, // the third drive fails, and the loss is the next line
		{loss, "dddddddd", "0 d of footage held"},
		{find("The array starts again", loss), "rrrrrrrr", "0 d of footage held"},
	} {
		if e := m.Events[c.at]; e.States != c.states || e.Held != c.held || e.Loss != (c.at == loss) {
			t.Errorf("after %q the bays are in %s, with %s; want %s, with %s", e.What, e.States, e.Held, c.states, c.held)
		}
	}
	if first, second := m.Events[fails], m.Events[fails+1]; first.Later != "" || second.Later != "26.4 hours later" && second.Later != "26 hours later" {
		t.Errorf("the first two events come %q and %q", first.Later, second.Later)
	}
	// The moment is marked on the whole life and on the footage, and where it falls into
	// the days around the loss on those too.
	if at := m.Events[loss].At; len(m.Marks) != 3 || m.Marks[1].Drawing != "close-1" || at[1] == nil || *at[1] != 0 {
		t.Errorf("the loss is marked at %v of %+v", at, m.Marks)
	}
	if at := m.Events[fails].At; at[1] != nil || at[0] == nil {
		t.Errorf("the first failure is marked at %v", at)
	}
}

// What happens at one moment happens in turn.
func TestMotionInOneMoment(t *testing.T) {
	t.Parallel()
	m := motionOf(t, stripedLife())
	if len(m.Groups) != 2 || m.Groups[1].Name != "group 2" {
		t.Errorf("%+v", m.Groups)
	}
	var states []string
	for _, e := range m.Events[:4] {
		states = append(states, e.States)
	}
	if want := []string{"rrrrrrrr", "rrrrrwrr", "rrrrrwrw", "dddddddd"}; !slices.Equal(states, want) {
		t.Errorf("the bays go through %q, want %q: %+v", states, want, m.Events[:4])
	}
	n := sampleNarrator(trace.Life{Horizon: 1000, Bays: 2, DrivesInGroup: 2, GroupsPerSet: 1, Tolerance: 1})
	if _, ok := n.motion(nil); ok {
		t.Error("there is something to step through in a life without events")
	}
}

// checkPlayer holds the page against that its player plays, pauses and steps, moves nothing
// by itself before that, and heeds who asks for less motion.
func checkPlayer(t *testing.T, tab *chartstest.Tab) {
	t.Helper()
	// The last tooltip has gone, which it does a tenth of a second after it is told to; from now
	// on timers go off when the test says so.
	tab.Await(`new Promise((done) => setTimeout(done, 100))`)
	tab.Ask(`(window.setTimeout = (f, ms) => { window.due = f; window.wait = ms; return 1; }, window.clearTimeout = () => { window.due = null; })`)
	press := func(what string) {
		tab.Ask(`document.querySelector('[data-of="life-1-event"] [data-do="` + what + `"]').click()`)
	}
	due := func() { tab.Ask(`(() => { const f = window.due; window.due = null; f(); })()`) }
	said := func() string { return tab.Ask(`document.getElementById('life-1-event-is').textContent`) }
	check := func(when, want string) {
		t.Helper()
		if got := said(); !strings.HasPrefix(got, want+" of ") {
			t.Errorf("%s the player stands at %s, want %s", when, got, want)
		}
	}
	mark := func() string {
		return tab.Ask(`JSON.stringify(echarts.getInstanceByDom(document.getElementById('drawing-life-1')).getOption().series.at(-1).data)`)
	}
	check("at first", "1")
	if got := tab.Ask(`window.due === undefined`); got != "true" {
		t.Error("something plays before it is told to")
	}
	press("step")
	check("after a step", "2")
	if got := mark(); !strings.Contains(got, "0.5") { // day 204.2 of 365
		t.Errorf("the moment is marked at %s", got)
	}
	press("back")
	check("after a step back", "1")
	press("play")
	due()
	due()
	check("after two steps of its own", "3")
	press("play")
	if got := tab.Ask(`window.due === null`); got != "true" {
		t.Error("it goes on after a pause")
	}
	tab.Ask(`document.body.dispatchEvent(new KeyboardEvent('keydown', { key: ' ', bubbles: true, cancelable: true }))`)
	due()
	check("after the space bar", "4")
	tab.Ask(`document.body.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowRight', bubbles: true, cancelable: true }))`)
	check("after an arrow", "5")
	if got := tab.Ask(`document.querySelectorAll('#moment-1 .bays li svg').length`); got != "8" {
		t.Errorf("%s bays are drawn", got)
	}
	tab.Ask(`(document.querySelector('[data-of="slow-hour"] select').value = '4', document.querySelector('[data-of="slow-hour"] [data-do="play"]').click())`)
	before := tab.Ask(`document.getElementById('slow-hour').value`)
	due()
	if after := tab.Ask(`document.getElementById('slow-hour').value`); after == before {
		t.Error("the rebuild does not play")
	}
	if got := tab.Ask(`window.wait`); got != "62.5" {
		t.Errorf("a step takes %s milliseconds at the fourfold speed", got)
	}
	tab.Ask(`Object.defineProperty(MediaQueryList.prototype, 'matches', { get: () => true })`)
	due()
	if got := tab.Ask(`window.wait`); got != "1000" {
		t.Errorf("a step takes %s milliseconds for who asks for less motion", got)
	}
	if thorough.Asked() { // that of a lesson is looked at in any case
		tab.CheckProjector("12 of 12")
	}
}
