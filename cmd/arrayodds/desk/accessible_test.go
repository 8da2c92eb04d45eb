package desk_test

import (
	"fmt"
	"os"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/cmd/arrayodds/desk"
)

// No rule of axe-core is broken, on a screen of any width, light or dark. Both sides of
// a phone are looked at, with two choices, and one study beside the comparison; with make
// thorough the whole demo, and all.
func TestAccessible(t *testing.T) {
	widths := []int{390, 1280, 1920}
	text, last := rough(t, small(t)), "choices.1"
	if thorough.Asked() {
		text, last = demo(t), "choices.5"
	}
	tab := lent(t, desk.Given{Name: "saltmarsh.toml", Text: text}, widths[0])
	axe, err := os.ReadFile("../../../charts/headless/axe/dist/axe.min.js")
	if err != nil {
		t.Fatalf("%v: run make browser first", err)
	}
	await(t, tab)
	tab.Ask("(() => { " + string(axe) + "\n; })()")
	for i, width := range widths {
		if !thorough.Part(i, len(widths)) {
			continue
		}
		t.Run(fmt.Sprint(width), func(t *testing.T) {
			tab.Resize(width)
			tab.Dark(width == 1920)
			tab.Ask(unfolded("section ", "section cameras", "cameras.0", "section drives", "drives.0", "section care", "section choices", last, "section hazards", "section recorder", "section options", "options.0"))
			for _, side := range []string{"site", "answers"} {
				for k, study := range append([]string{"compare"}, desk.Studies...) {
					if study != "compare" && (side == "site" || width != 390 || !thorough.Part(k, 6)) {
						continue
					}
					tab.Ask(fmt.Sprintf(`(showStudy(%q), showSide(%q))`, study, side))
					// The rest of the page is as it was with the first.
					context := "document"
					if study != "compare" {
						context = fmt.Sprintf(`"#%s-panel"`, study)
					}
					if got := tab.Await(`axe.run(` + context + `, { resultTypes: ["violations"] }).then((r) => r.violations.map((v) => v.id + ": " + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 200) + " " + n.failureSummary).join(" | ")).join("\n"))`); got != "" {
						t.Errorf("%s, %s: %s", side, study, got)
					}
					// Nothing is wider than the window, and what is touched is large enough.
					if got := tab.Ask(`document.documentElement.scrollWidth > innerWidth`); got != "false" {
						t.Errorf("%s, %s: the page is wider than the window", side, study)
					}
					if got := tab.Ask(`[...document.querySelectorAll("button, select, input:not([type=checkbox]), summary, label.check")].filter((e) => e.checkVisibility() && e.getBoundingClientRect().height < 43.5).map((e) => e.outerHTML.slice(0, 120)).slice(0, 5).join("\n")`); got != "" {
						t.Errorf("%s, %s: too small to touch: %s", side, study, got)
					}
				}
			}
		})
	}
}
