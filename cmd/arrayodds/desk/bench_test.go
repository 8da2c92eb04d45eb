package desk_test

import (
	"os"
	"strconv"
	"strings"
	"testing"

	"arrayodds/charts/chartstest"
	"arrayodds/cmd/arrayodds/desk"
)

// BenchmarkDesk opens the demo's desk in a new tab and changes it, and reports in ms: when
// the engine is ready, when the first answer stands there and when the whole one, from the
// beginning of the page; then, after a change, the first answer and the whole one. Sizes are
// in MB. In the foreground, the only place where a tab paints and notes long tasks, it
// reports for how long the page's own thread was taken at most, at the start until the
// whole answer stands there and by the changes: 0 where that was never more than 50 ms.
func BenchmarkDesk(b *testing.B) {
	first := func(given desk.Given) desk.Given { return withFirst(b, given) }
	for _, c := range []struct {
		name   string
		slower int
		front  bool
		of     func(desk.Given) desk.Given
	}{
		{"a whole processor", 1, false, first},
		{"in the foreground", 1, true, first},
		{"a half", 2, false, first},
		{"a quarter", 4, false, first},
		{"of a site that the engine must read first", 1, false, func(given desk.Given) desk.Given { return given }},
	} {
		b.Run(c.name, func(b *testing.B) {
			text, err := os.ReadFile("../../../testdata/saltmarsh.toml")
			if err != nil {
				b.Fatal(err)
			}
			path := written(b, c.of(desk.Given{Name: "saltmarsh.toml", Text: string(text)}))
			if info, err := os.Stat(path); err == nil {
				b.ReportMetric(float64(info.Size())/1e6, "MB-page")
			}
			sums := map[string]float64{}
			n := 0
			for b.Loop() {
				tab := chartstest.NewTab(b)
				tab.Slow(c.slower)
				tab.Watch()
				if c.front {
					tab.Front()
				}
				tab.Open(path, 1280)
				if got := tab.Await(answered); got != "answered" {
					b.Fatal(got)
				}
				for _, part := range strings.Fields(tab.Await(measured)) {
					name, value, _ := strings.Cut(part, "=")
					x, err := strconv.ParseFloat(value, 64)
					if err != nil {
						b.Fatal(err)
					}
					if c.front || !strings.HasPrefix(name, "ms-blocked") {
						sums[name] += x
					}
				}
				n++
				tab.Close()
			}
			for name, sum := range sums {
				b.ReportMetric(sum/float64(n), name)
			}
		})
	}
}

// measured is a script that changes the site five times, and gives the figures of the
// last four changes and of the start.
const measured = `(async () => {
	const start = { ready: performance.getEntriesByName("ready")[0].startTime, first: answers.first, whole: performance.getEntriesByName("answered")[0].startTime, blocked: Math.max(0, ...longTasks) };
	longTasks.length = 0;
	let edit = 0, first = 0, whole = 0;
	for (let i = 0; i < 5; i++) {
		answers.first = 0;
		const began = performance.now();
		await site.change({ op: "set", path: "care.notice", value: (i + 3) + " h" });
		const edited = performance.now();
		while (!answers.first) await new Promise((done) => setTimeout(done));
		const answer = answers.first;
		while (answers.of !== site.text) await new Promise((done) => setTimeout(done, 2));
		if (i === 0) continue;
		edit += (edited - began) / 4; first += (answer - began) / 4; whole += (performance.now() - began) / 4;
	}
	return "ms-ready=" + start.ready + " ms-first-answer=" + start.first + " ms-whole-answer=" + start.whole + " ms-blocked-at-start=" + start.blocked +
		" ms-edit=" + edit + " ms-first-after-change=" + first + " ms-whole-after-change=" + whole + " ms-blocked-by-changes=" + Math.max(0, ...longTasks);
})()`
