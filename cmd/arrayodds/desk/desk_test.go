package desk_test

import (
	"bytes"
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/array/thorough"
	"arrayodds/charts/chartstest"
	"arrayodds/cmd/arrayodds/desk"
	"arrayodds/cmd/arrayodds/export"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"
)

// demo returns the demo site.
func demo(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile("../../../testdata/saltmarsh.toml")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// small returns the demo site with the first two of its choices.
func small(t testing.TB) string {
	t.Helper()
	choices := strings.SplitAfter(demo(t), "[[choices]]")
	_, rest, found := strings.Cut(choices[len(choices)-1], "# ---")
	if !found || len(choices) < 4 {
		t.Fatal("the demo has few choices, or nothing behind them")
	}
	return choices[0] + choices[1] + strings.TrimSuffix(choices[2], "[[choices]]") + "# ---" + rest
}

// quick returns the small site with wide intervals and without doubt about its inputs, which
// takes most of the time, for what asks for no digits: it is simulated anew after every
// letter that is typed.
func quick(t testing.TB) string {
	t.Helper()
	wide := rough(t, small(t))
	sure := doubt.ReplaceAllString(wide, "$1")
	if sure == wide {
		t.Fatal("the demo has no doubt")
	}
	return sure
}

// rough returns a site with wide intervals.
func rough(t testing.TB, text string) string {
	t.Helper()
	wide := strings.Replace(text, `accuracy = "5 %"`, `accuracy = "50 %"`, 1)
	if wide == text {
		t.Fatal("the site has another accuracy")
	}
	return wide
}

// doubt matches an input that is not known, and what is likely of it.
var doubt = regexp.MustCompile(`\{ low = [^,}]*, likely = ([^,}]*), high = [^,}]* \}`)

// scheduled is a site whose cameras stand in a schedule beside it.
const scheduled = `service_life = "5 y"
cameras = "plan.csv"
[[drives]]
label = "6 TB"
capacity = "6 TB"
life = { afr = "1.5 %" }
transfer = "180 MB/s"
price = 150
[[choices]]
label = "Mirror"
drive = "6 TB"
layout = "RAID 1"
drives = 2
[[choices]]
label = "Five"
drive = "6 TB"
layout = "RAID 5"
drives = 5
[run]
accuracy = "5 %"
`

const plan = "label,count,bitrate,retention\nDoors,4,4 Mbit/s,14 d\nYard,6,3 Mbit/s,20 d\n"

// jsonOf returns what the command compare writes as JSON of a site.
func jsonOf(t *testing.T, text string, beside fs.FS) string {
	t.Helper()
	source, err := axis.Open(strings.NewReader(text), "site.toml", site.Beside(beside))
	if err != nil {
		t.Fatal(err)
	}
	run := source.File().Run
	asked := study.Request{Source: source, Options: engine.Options{Seed: run.Seed, Accuracy: run.Accuracy, MaxTrials: run.MaxTrials}}
	for i := range source.File().Site.Choices {
		asked.Choices = append(asked.Choices, i)
	}
	found, err := study.Compare(context.Background(), asked, sim.Run)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range export.FormatsOf(found) {
		if f.Name == "json" {
			var b bytes.Buffer
			if err := f.Write(&b, found); err != nil {
				t.Fatal(err)
			}
			return b.String()
		}
	}
	t.Fatal("a comparison has no JSON")
	return ""
}

// opened opens a desk in a tab, and fails the test for any request to a network.
func opened(t *testing.T, given desk.Given, width int) *chartstest.Tab {
	t.Helper()
	tab := chartstest.NewTab(t)
	asked := tab.Requests()
	t.Cleanup(func() { checkRequests(t, asked()) })
	tab.Open(written(t, given), width)
	return tab
}

func checkRequests(t *testing.T, urls []string) {
	t.Helper()
	for _, url := range urls {
		if !strings.HasPrefix(url, "file:") && !strings.HasPrefix(url, "blob:") && !strings.HasPrefix(url, "data:") {
			t.Errorf("the page asks for %s", url)
		}
	}
}

func await(t *testing.T, tab *chartstest.Tab) {
	t.Helper()
	if got := tab.Await(answered); got != "answered" {
		t.Fatal(got)
	}
}

// Choices spread over workers and put together give the digits of the command. (A third
// site, begun and changed in the page, is in TestFromAnEmptyPageToASheet.)
func TestSameDigitsAsTheCommand(t *testing.T) {
	thorough.Only(t, "make test holds the first site that is opened against the command, and one that is changed")
	beside := os.DirFS(folderWith(t, "plan.csv", plan))
	for _, c := range []struct {
		name  string
		open  func(*testing.T, desk.Given, int) *chartstest.Tab
		given desk.Given
	}{
		{"the demo", lent, desk.Given{Name: "saltmarsh.toml", Text: demo(t)}},
		{"a schedule that the page carries", opened, desk.Given{Name: "plan.toml", Text: scheduled, Files: map[string][]byte{"plan.csv": []byte(plan)}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			tab := c.open(t, c.given, 1280)
			await(t, tab)
			if got, want := tab.Await(output("compare", "json")), jsonOf(t, c.given.Text, beside); got != want {
				t.Errorf("the desk writes %d bytes of JSON, the command %d, or others", len(got), len(want))
			}
		})
	}
}

func folderWith(t *testing.T, name, text string) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return dir
}

// From an empty page, or a new site asked for where another was: begin with a site, change
// it, break it, mend it, hand over a sheet, save and load.
func TestFromAnEmptyPageToASheet(t *testing.T) {
	var tab *chartstest.Tab
	if thorough.Asked() {
		tab = opened(t, desk.Given{}, 1280)
	} else { // to start another engine takes seconds
		tab = lent(t, desk.Given{}, 1280)
		tab.Ask(`byId("new").click()`)
	}
	beginSite(t, tab)
	await(t, tab)
	before := tab.Ask(`document.getElementById("rows").textContent`)
	tab.Ask(unfolded("section ", "section cameras", "cameras.0"))
	if got := tab.Await(typed("cameras.0.count", "many")); got != "typed" {
		t.Fatal(got)
	}
	// In the command's words, at the field.
	if got := tab.Ask(`document.querySelector('#form [data-field="cameras.0.count"] .error').textContent`); !strings.Contains(got, `found "many", a text; right would be a whole number`) {
		t.Errorf("at the broken field stands %q", got)
	}
	if got := tab.Ask(`document.getElementById("answer-panel").classList.contains("stale")`); got != "true" {
		t.Error("the figures of the file before look like those of this one")
	}
	tab.Await(typed("cameras.0.count", "3"))
	await(t, tab)
	if got := tab.Ask(`document.querySelector('#form [data-field="cameras.0.count"] .error').textContent`); got != "" {
		t.Errorf("at the mended field stands %q", got)
	}
	if tab.Ask(`document.getElementById("rows").textContent`) == before {
		t.Error("with other cameras the answer is the same")
	}
	text := tab.Ask(`site.text`)
	if got, want := tab.Await(output("compare", "json")), jsonOf(t, text, os.DirFS(t.TempDir())); got != want {
		t.Error("the desk's JSON of the changed site is not the command's")
	}
	if sheet := tab.Await(output("compare", "sheet")); !strings.HasPrefix(sheet, "<!DOCTYPE html>") || strings.Contains(sheet, "<script") {
		t.Errorf("the sheet is %.60q", sheet)
	}
	// Undone and done again; a file that is loaded is what was saved.
	if got := tab.Await(`(async () => {
		const text = site.text;
		site.undo();
		await site.queue;
		const undone = site.text !== text;
		site.redo();
		await site.queue;
		const again = site.text === text;
		await saveSite();
		await take([new File([text.replace(/count = 3/, "count = 4")], "other.toml")]);
		const other = site.text !== text;
		await take([new File([text], "again.toml")]);
		return [undone, again, other, site.text === text, site.name].join();
	})()`); got != "true,true,true,true,again.toml" {
		t.Errorf("undo, redo, another file, the same file, its name: %s", got)
	}
}

// A desk is small enough to mail.
func TestSize(t *testing.T) {
	t.Parallel()
	info, err := os.Stat(written(t, desk.Given{Text: demo(t)}))
	if err != nil {
		t.Fatal(err)
	}
	if most := int64(6.5e6); info.Size() > most {
		t.Errorf("the page has %d bytes, at most %d are allowed", info.Size(), most)
	}
}

// The bad day is asked of a state that the page offers, and a state that is wrong is said.
func TestNow(t *testing.T) {
	thorough.Only(t, "make test asks the desk for its other answers")
	tab := lent(t, desk.Given{Name: "saltmarsh.toml", Text: quick(t)}, 390)
	await(t, tab)
	got := tab.Await(`(async () => {
		studies.draw("now");
		const state = byId("now-state");
		state.value = "";
		showStudy("now");
		while (!state.value) await new Promise((done) => setTimeout(done, 20));
		await studies.run("now");
		const answered = byId("now-status").textContent + byId("now-page").querySelector("iframe").srcdoc.length;
		state.value = state.value.replace(/^age = .*$/m, 'age = "never"');
		await studies.run("now");
		return [/^\d{5,}$/.test(answered) || answered, byId("now-status").textContent].join();
	})()`)
	if !strings.HasPrefix(got, "true,state.toml:") || !strings.Contains(got, `"never"`) {
		t.Error(got)
	}
}
