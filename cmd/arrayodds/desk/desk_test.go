package desk_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/array/site/starter"
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
	t.Cleanup(func() {
		for _, url := range asked() {
			if !strings.HasPrefix(url, "file:") && !strings.HasPrefix(url, "blob:") && !strings.HasPrefix(url, "data:") {
				t.Errorf("the page asks for %s", url)
			}
		}
	})
	tab.Open(written(t, given), width)
	return tab
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
	t.Parallel()
	beside := os.DirFS(folderWith(t, "plan.csv", plan))
	for name, given := range map[string]desk.Given{
		"the demo":   {Name: "saltmarsh.toml", Text: demo(t)},
		"a schedule": {Name: "plan.toml", Text: scheduled, Files: map[string][]byte{"plan.csv": []byte(plan)}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			tab := opened(t, given, 1280)
			await(t, tab)
			if got, want := tab.Await(output("compare", "json")), jsonOf(t, given.Text, beside); got != want {
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

// typed is a script that types into the field of a path.
func typed(path, text string) string {
	return fmt.Sprintf(`(async () => {
		const field = document.querySelector('#form [data-path=%q]');
		if (!field) return "no field";
		field.focus();
		field.value = %q;
		field.dispatchEvent(new Event(field.tagName === "SELECT" ? "change" : "input", { bubbles: true }));
		await new Promise((done) => setTimeout(done, 150));
		await site.queue;
		return "typed";
	})()`, path, text)
}

// unfolded is a script that unfolds parts of the form.
func unfolded(paths ...string) string {
	list, _ := json.Marshal(paths)
	return fmt.Sprintf(`(() => { for (const path of %s) form.open.add(path); form.draw(site.answer.form); form.hear(site.answer); return "unfolded"; })()`, list)
}

// From an empty page: begin with a site, change it, break it, mend it, hand over a sheet,
// save and load.
func TestFromAnEmptyPageToASheet(t *testing.T) {
	t.Parallel()
	tab := opened(t, desk.Given{}, 1280)
	// A page without a site offers some.
	if got := tab.Await(`(async () => {
		for (let i = 0; i < 600 && !document.querySelector("#question .starters button"); i++) await new Promise((done) => setTimeout(done, 50));
		const offers = document.querySelectorAll("#question .starters button");
		if (offers.length < 3) return offers.length + " sites are offered";
		offers[0].click();
		for (let i = 0; i < 200 && !site.text; i++) await new Promise((done) => setTimeout(done, 50));
		return site.text ? "begun" : "nothing began";
	})()`); got != "begun" {
		t.Fatal(got)
	}
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

// A schedule that is dropped on the page becomes the cameras of the site, and a site that
// names one says that it is lacking until it comes.
func TestDropASchedule(t *testing.T) {
	t.Parallel()
	tab := opened(t, desk.Given{Name: "site.toml", Text: scheduled}, 1280)
	lacking := `(async () => {
		for (let i = 0; i < 400 && !site.answer; i++) await new Promise((done) => setTimeout(done, 50));
		return site.answer.wanted.join() + ": " + site.errors.map((error) => error.text).join();
	})()`
	if got := tab.Await(lacking); !strings.HasPrefix(got, "plan.csv: ") || !strings.Contains(got, "plan.csv") {
		t.Fatalf("of the file that is lacking it says %q", got)
	}
	drop := func(name, text string) string {
		return fmt.Sprintf(`(async () => {
			const carried = new DataTransfer();
			carried.items.add(new File([%q], %q, { type: "text/csv" }));
			document.body.dispatchEvent(new DragEvent("drop", { dataTransfer: carried, bubbles: true, cancelable: true }));
			await new Promise((done) => setTimeout(done, 200));
			const use = [...document.querySelectorAll("#question[open] button")].find((button) => /schedule/.test(button.textContent));
			if (use) use.click();
			await new Promise((done) => setTimeout(done, 200));
			await site.queue;
			return "dropped";
		})()`, text, name)
	}
	tab.Await(drop("plan.csv", plan))
	await(t, tab)
	if got := tab.Ask(`document.getElementById("demand").textContent`); !strings.Contains(got, "10 cameras") {
		t.Errorf("with the schedule the demand is %q", got)
	}
	// Another takes the place of the cameras that there are.
	tab.Await(drop("other.csv", "label,count,bitrate,retention\nGate,9,2 Mbit/s,10 d\n"))
	await(t, tab)
	if got := tab.Ask(`site.text.split("\n").filter((line) => line.startsWith("cameras")).join() + document.getElementById("demand").textContent`); !strings.Contains(got, `"other.csv"`) || !strings.Contains(got, "9 cameras") {
		t.Errorf("with another schedule the demand is %q", got)
	}
}

// What a site file, a label or a link holds never becomes markup, and what ends a worker
// leaves the site.
func TestHostileSiteAndWorkersThatDie(t *testing.T) {
	t.Parallel()
	hostile := strings.Replace(starter.Text(), `label = "`, `label = "<img src=x onerror=alert(1)><script>alert(2)</script>`, -1)
	tab := opened(t, desk.Given{Name: "</script><b>.toml", Text: hostile}, 1280)
	tab.Await(`(async () => { for (let i = 0; i < 400 && !site.answer; i++) await new Promise((done) => setTimeout(done, 50)); return "read"; })()`)
	if got := tab.Ask(`document.querySelectorAll("#desk img, #desk script, #desk b:not(.key b)").length`); got != "0" {
		t.Errorf("%s elements came of labels", got)
	}
	if got := tab.Ask(`site.name`); got != "</script><b>.toml" {
		t.Errorf("the file is called %q", got)
	}
	tab2 := opened(t, desk.Given{Name: "site.toml", Text: scheduled, Files: map[string][]byte{"plan.csv": []byte(plan)}}, 1280)
	await(t, tab2)
	got := tab2.Await(`(async () => {
		for (const engine of engines.pool.engines) engine.die("it ran out of memory");
		engines.front.die("it ran out of memory");
		await site.change({ op: "set", path: "choices.0.label", value: "Pair" });
		return site.text.includes('"Pair"') ? "kept" : "lost";
	})()`)
	if got != "kept" {
		t.Errorf("after its workers died the site is %s", got)
	}
	await(t, tab2)
	// One that dies at work is said.
	got = tab2.Await(`(async () => {
		const job = engines.pool.do("test", "rank", { text: site.text }, site.files);
		await new Promise((done) => setTimeout(done, 20));
		for (const engine of engines.pool.engines) if (engine.taken) engine.die("it ran out of memory");
		return job.then(() => "answered", (err) => err.message);
	})()`)
	if got != "it ran out of memory" && got != "answered" {
		t.Errorf("of a worker that died at work is said %q", got)
	}
}

// A link holds a small site.
func TestLink(t *testing.T) {
	t.Parallel()
	tab := opened(t, desk.Given{Name: "site.toml", Text: strings.Replace(scheduled, `cameras = "plan.csv"`, `name = "Læsø, 3 æ"`, 1)}, 1280)
	await(t, tab)
	if got := tab.Await(`(async () => {
		const link = await linkTo(site.text);
		location.hash = link.split("#")[1];
		return String(await siteOfLink() === site.text);
	})()`); got != "true" {
		t.Error("a site is another behind its link")
	}
	if got := tab.Await(`linkTo(Array.from({ length: 9000 }, () => Math.random()).join()).then(() => "made", (err) => err.message)`); !strings.Contains(got, "too large for a link") {
		t.Errorf("of a site that is too large it says %q", got)
	}
	if got := tab.Await(`(async () => { location.hash = "site=notpacked"; return siteOfLink().then(() => "read", () => "refused"); })()`); got != "refused" {
		t.Errorf("a broken link is %s", got)
	}
}

// No rule of axe-core is broken, on a screen of any width, light or dark.
func TestAccessible(t *testing.T) {
	t.Parallel()
	axe, err := os.ReadFile("../../../charts/headless/axe/dist/axe.min.js")
	if err != nil {
		t.Fatalf("%v: run make browser first", err)
	}
	for _, width := range []int{390, 1280, 1920} {
		t.Run(fmt.Sprint(width), func(t *testing.T) {
			t.Parallel()
			tab := opened(t, desk.Given{Name: "saltmarsh.toml", Text: demo(t)}, width)
			tab.Dark(width == 1920)
			await(t, tab)
			tab.Ask(unfolded("section ", "section cameras", "cameras.0", "section drives", "drives.0", "section care", "section choices", "choices.5", "section hazards", "section recorder", "section options", "options.0"))
			tab.Ask("(() => { " + string(axe) + "\n; })()")
			for _, side := range []string{"site", "answers"} {
				for _, study := range append([]string{"compare"}, desk.Studies...) {
					if study != "compare" && (side == "site" || width != 390) {
						continue
					}
					tab.Ask(fmt.Sprintf(`(showStudy(%q), showSide(%q))`, study, side))
					if got := tab.Await(`axe.run({ resultTypes: ["violations"] }).then((r) => r.violations.map((v) => v.id + ": " + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 200) + " " + n.failureSummary).join(" | ")).join("\n"))`); got != "" {
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

// Other engines of browsers give the same digits.
func TestOtherBrowsers(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("starts two further browsers")
	}
	look := func(names ...string) string {
		for _, name := range names {
			if path, err := exec.LookPath(name); err == nil {
				return path
			}
		}
		return ""
	}
	for name, start := range map[string]func(*testing.T) driven{
		"Firefox": func(t *testing.T) driven {
			path := look("firefox-esr", "firefox")
			if path == "" {
				t.Skip("there is no Firefox")
			}
			return startFirefox(t, path)
		},
		"WebKitGTK": func(t *testing.T) driven {
			driver, xvfb := look("WebKitWebDriver"), look("Xvfb")
			if driver == "" || xvfb == "" {
				t.Skip("there is no driver of WebKitGTK, or no Xvfb")
			}
			return startWebKit(t, driver, xvfb)
		},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			text := demo(t)
			path := written(t, desk.Given{Name: "saltmarsh.toml", Text: text})
			browser := start(t)
			if err := browser.open("file://" + path); err != nil {
				t.Fatal(err)
			}
			got, err := browser.run("return " + answered)
			if err != nil || got != "answered" {
				t.Fatal(got, err)
			}
			if got, err = browser.run("return " + output("compare", "json")); err != nil || got != jsonOf(t, text, os.DirFS(t.TempDir())) {
				t.Errorf("the desk's JSON of the demo is not the command's (%d bytes), %v", len(got), err)
			}
		})
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

// A slider sets its field to each value that it comes to, and the answer follows.
func TestSlider(t *testing.T) {
	t.Parallel()
	tab := opened(t, desk.Given{Name: "saltmarsh.toml", Text: demo(t)}, 1280)
	await(t, tab)
	tab.Ask(unfolded("section care"))
	got := tab.Await(`(async () => {
		const tool = [...document.querySelectorAll("#form .tools button")].find((button) => (button.getAttribute("aria-label") || "").startsWith("Slide Rebuild share"));
		tool.click();
		for (let i = 0; i < 600 && !document.querySelector(".slider input"); i++) await new Promise((done) => setTimeout(done, 50));
		const range = document.querySelector(".slider input");
		if (!range) return document.querySelector(".slider").textContent;
		range.value = range.max;
		range.dispatchEvent(new Event("input", { bubbles: true }));
		await new Promise((done) => setTimeout(done, 300));
		await site.queue;
		return document.querySelector('[data-path="care.rebuild_share"]').value + ", " + document.querySelectorAll(".slider .curve path").length + " lines";
	})()`)
	if got != "1, 7 lines" { // the JBOD has no rebuilds
		t.Errorf("slid to its end, the field and the curves are %s", got)
	}
	await(t, tab)
	if !strings.Contains(tab.Ask(`site.text`), "rebuild_share = 1 ") {
		t.Error("the file does not have what was slid to")
	}
}

// The bad day is asked of a state that the page offers, and a state that is wrong is said.
func TestNow(t *testing.T) {
	t.Parallel()
	tab := opened(t, desk.Given{Name: "saltmarsh.toml", Text: demo(t)}, 390)
	await(t, tab)
	got := tab.Await(`(async () => {
		showStudy("now");
		const state = byId("now-state");
		for (let i = 0; i < 400 && !state.value; i++) await new Promise((done) => setTimeout(done, 50));
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

// Who types letter by letter sees what was typed, also where the form is drawn anew for
// it; undo gives every text back; and nothing of one file can be saved beside another.
func TestTyping(t *testing.T) {
	t.Parallel()
	tab := opened(t, desk.Given{Name: "saltmarsh.toml", Text: demo(t)}, 1280)
	await(t, tab)
	tab.Ask(unfolded("section goal", "section drives", "drives.0", "section cameras", "cameras.0"))
	for path, text := range map[string]string{"drives.0.label": "8 TB, new", "cameras.0.retention": "21 d", "goal.budget": "9000"} {
		got := tab.Await(fmt.Sprintf(`(async () => {
			const field = () => document.querySelector('#form [data-path=%q]');
			field().focus();
			field().value = "";
			for (const letter of %q) {
				field().value += letter;
				field().dispatchEvent(new Event("input", { bubbles: true }));
				await new Promise((done) => setTimeout(done, 120));
				await site.queue;
			}
			return field().value;
		})()`, path, text))
		if got != text {
			t.Errorf("typed %q into %s, which then has %q", text, path, got)
		}
	}
	got := tab.Await(`(async () => {
		const texts = [site.text];
		for (const value of ["3 y", "4 y"]) { await site.change({ op: "set", path: "service_life", value }); texts.push(site.text); site.lastOf = ""; }
		site.undo(); site.undo();
		await site.queue;
		const back = site.text === texts[0];
		site.redo(); site.redo();
		await site.queue;
		return [back, site.text === texts[2]].join();
	})()`)
	if got != "true,true" {
		t.Errorf("undone twice and done again twice at once: %s", got)
	}
	if got := tab.Await(`(async () => { const read = site.open("service_life = 3", "other.toml"); await read; return byId("compare-outs").children.length + ", " + byId("points").children.length + ", " + site.errors.length; })()`); !strings.HasPrefix(got, "0, 0, ") || strings.HasSuffix(got, ", 0") {
		t.Errorf("of another file that is wrong stand there outputs, sentences, errors: %s", got)
	}
}
