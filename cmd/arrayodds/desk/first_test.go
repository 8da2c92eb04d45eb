package desk_test

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/charts/chartstest"
	"arrayodds/cmd/arrayodds/desk"
	"arrayodds/cmd/desk/session"
)

// withFirst returns a site with what the command works out of it as it writes the page.
func withFirst(t testing.TB, given desk.Given) desk.Given {
	t.Helper()
	first, err := session.NewFirst(t.Context(), given.Text, given.Files)
	if err != nil {
		t.Fatal(err)
	}
	given.First = &first
	return given
}

// firstFigures looks at a desk as it is opened with a site, and says what is wrong: the form
// and the first figures stand there before the engine runs; then it sharpens them to the
// digits of the command, and takes changes. No label is taken for markup.
func firstFigures(t *testing.T, tab *chartstest.Tab, given desk.Given) (wrong []string) {
	t.Helper()
	await(t, tab)
	wrong = markup(tab)
	if got := tab.Ask(`answers.first > 0 && answers.first < performance.getEntriesByName("ready")[0].startTime`); got != "true" {
		wrong = append(wrong, "figures before the engine was ready: "+got)
	}
	if got, want := tab.Await(output("compare", "json")), jsonOf(t, given.Text, nil); got != want {
		wrong = append(wrong, fmt.Sprintf("the desk writes %d bytes of JSON, the command %d, or others", len(got), len(want)))
	}
	if got := tab.Await(`site.change({ op: "set", path: "care.notice", value: "3 h" }).then(() => site.answer.errors.length + site.text.match(/notice = .*/)[0].slice(0, 14))`); got != `0notice = "3 h"` {
		wrong = append(wrong, fmt.Sprintf("after a change: %q", got))
	}
	await(t, tab)
	return wrong
}

// The desk that the others work on was opened so.
func TestFirstFiguresBeforeTheEngine(t *testing.T) {
	tab := lent(t, hostile(t), 1280)
	for _, wrong := range ready.first {
		t.Error(wrong)
	}
	if !thorough.Asked() {
		return // to start another engine takes seconds
	}
	// A site in a link goes before the one that the page was written with.
	_, link, _ := strings.Cut(tab.Await(`linkTo(site.text.replace(/^name = .*$/m, 'name = "Linked"'))`), "#")
	other := chartstest.NewTab(t)
	other.Open(written(t, withFirst(t, hostile(t)))+"#"+link, 1280)
	await(t, other)
	if got := other.Ask(`site.text.match(/^name = .*$/m)[0]`); got != `name = "Linked"` {
		t.Errorf("of a link is opened %q", got)
	}
}

// Where the engine does not start, what stands there can still be read and saved.
func TestFirstFiguresWithoutAnEngine(t *testing.T) {
	t.Parallel()
	path := written(t, withFirst(t, desk.Given{Name: "saltmarsh.toml", Text: demo(t)}))
	page, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	// The first part of the engine, which spares its compilation.
	at := bytes.Index(page, []byte("<script>feed()")) - 1000
	if thorough.Asked() {
		at = bytes.LastIndex(page, []byte("<script>feed()")) - 1000
	}
	copy(page[at:], "!!!!") // no base64
	if err := os.WriteFile(path, page, 0o644); err != nil {
		t.Fatal(err)
	}
	tab := chartstest.NewTab(t)
	tab.Open(path, 1280)
	got := tab.Await(`(async () => {
		await ` + until(`!document.getElementById("complaint").hidden`) + `;
		const said = document.getElementById("complaint").textContent;
		const rows = document.querySelectorAll("#rows tr").length;
		await site.change({ op: "set", path: "care.notice", value: "3 h" });
		await site.queue;
		return [said.includes("did not start"), document.getElementById("desk").hidden, rows > 3, document.getElementById("complaint").textContent.includes("kept"),
			document.querySelector("#answer-table caption").textContent.trim()].join();
	})()`)
	// The rows are in the order of the file, until all is simulated.
	if got != "true,false,true,true,Chance of losing footage within the service life" {
		t.Errorf("without an engine: %s", got)
	}
}
