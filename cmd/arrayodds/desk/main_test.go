package desk_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"arrayodds/array/site/starter"
	"arrayodds/charts/chartstest"
	"arrayodds/cmd/arrayodds/desk"
)

func TestMain(m *testing.M) { chartstest.Main(m) }

// written returns the path of a desk that begins with a site.
func written(t testing.TB, given desk.Given) string {
	t.Helper()
	var b bytes.Buffer
	if err := desk.Write(&b, given); err != nil {
		t.Fatalf("%v: run make engine first", err)
	}
	path := filepath.Join(t.TempDir(), "desk.html")
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// ready is the desk that most tests work on: the engine is compiled once for all of them.
// It begins with a hostile site and the first figures of it.
var ready struct {
	sync.Mutex
	tab   *chartstest.Tab
	asks  func() []string // the addresses that it asked for
	first []string        // what was wrong of its first figures
}

// lent returns a desk on which a site was opened: the same for one test after the other,
// without what the one before it left.
func lent(t *testing.T, given desk.Given, width int) *chartstest.Tab {
	t.Helper()
	ready.Lock()
	t.Cleanup(ready.Unlock)
	if ready.tab == nil {
		ready.tab = chartstest.NewLastingTab(t)
		ready.asks = ready.tab.Requests()
		given := withFirst(t, hostile(t))
		ready.tab.Open(written(t, given), width)
		ready.first = firstFigures(t, ready.tab, given)
	}
	tab := ready.tab
	tab.For(t)
	t.Cleanup(func() {
		checkRequests(t, ready.asks())
		if t.Failed() {
			tab.Close()
			ready.tab = nil // the next begins with another
		}
	})
	tab.Resize(width)
	tab.Dark(false)
	files, err := json.Marshal(given.Files) // as base64
	if err != nil {
		t.Fatal(err)
	}
	if got := tab.Await(fmt.Sprintf(`(async () => {
		for (const dialog of document.querySelectorAll("dialog[open]")) dialog.close();
		form.open.clear();
		showStudy("compare");
		byId("complaint").hidden = true;
		await site.open(%q, %q, Object.fromEntries(Object.entries(%s || {}).map(([name, base64]) => [name, Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))])));
		return "open";
	})()`, given.Text, given.Name, files)); got != "open" {
		t.Fatal(got)
	}
	return tab
}

// beginSite begins with the first of the sites that a desk offers: one without a site as it
// is opened, one with a site when a new one is asked for.
func beginSite(t *testing.T, tab *chartstest.Tab) {
	t.Helper()
	if got := tab.Await(`(async () => {
		await ` + until(`document.querySelector("#question .starters button")`) + `;
		const offers = document.querySelectorAll("#question .starters button");
		if (offers.length < 3) return offers.length + " sites are offered";
		offers[0].click();
		await ` + until(`site.text`) + `;
		return site.text;
	})()`); got != starter.Sites()[0].Text {
		t.Fatalf("begun with the first site that is offered, the file is %.60q", got)
	}
}

// until is a script that waits for what changes the page until something holds.
func until(holds string) string {
	return `new Promise((done) => {
		const look = () => { if (` + holds + `) { watch.disconnect(); done("held"); } };
		const watch = new MutationObserver(look);
		watch.observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
		look();
	})`
}

// answered is a script that waits until the desk has an answer to the file as it stands,
// or says why not.
var answered = `(async () => {
	const state = () => document.getElementById("answer-state").textContent;
	const there = () => /^Simulated/.test(state()) && answers.of === site.text;
	const complaint = document.getElementById("complaint");
	await ` + until(`there() || /ended|no choices|wrong/.test(state()) || !complaint.hidden || document.getElementById("starting").textContent.includes("did not start")`) + `;
	return there() ? "answered" : state() + complaint.textContent + document.getElementById("starting").textContent;
})()`

// output is a script that gives a text that the desk would save.
func output(of, format string) string {
	return `outs.bytes("` + of + `", "` + format + `").then(textOf)`
}
