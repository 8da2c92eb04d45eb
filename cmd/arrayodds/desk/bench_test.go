package desk_test

import (
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"arrayodds/charts/chartstest"
	"arrayodds/cmd/arrayodds/desk"
)

// BenchmarkDesk opens the demo's desk in a new tab and changes it, and reports in ms: when
// the engine is ready and when the first answer stands there, from the beginning of the
// page; the longest time for which the page's own thread was taken; then, after a change,
// the first answer and the whole one. Sizes are in MB.
func BenchmarkDesk(b *testing.B) {
	for _, slower := range []int{1, 2, 4} {
		b.Run(fmt.Sprintf("1÷%d of a processor", slower), func(b *testing.B) {
			text, err := os.ReadFile("../../../testdata/saltmarsh.toml")
			if err != nil {
				b.Fatal(err)
			}
			path := written(b, desk.Given{Name: "saltmarsh.toml", Text: string(text)})
			if info, err := os.Stat(path); err == nil {
				b.ReportMetric(float64(info.Size())/1e6, "MB-page")
			}
			sums := map[string]float64{}
			n := 0
			for b.Loop() {
				tab := chartstest.NewTab(b)
				tab.Slow(slower)
				tab.Watch()
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
					sums[name] += x
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
	const start = { ready: performance.getEntriesByName("ready")[0].startTime, first: answers.first, blocked: Math.max(0, ...longTasks) };
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
	return "ms-ready=" + start.ready + " ms-first-answer=" + start.first + " ms-blocked-at-start=" + start.blocked +
		" ms-edit=" + edit + " ms-first-after-change=" + first + " ms-whole-after-change=" + whole + " ms-blocked-by-changes=" + Math.max(0, ...longTasks);
})()`
