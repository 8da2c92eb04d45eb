package desk_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

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

// answered is a script that waits until the desk has an answer to the file as it stands,
// or says why not.
const answered = `(async () => {
	for (let i = 0; i < 1200; i++) {
		const said = document.getElementById("answer-state").textContent;
		if (/^Simulated/.test(said) && answers.of === site.text) return "answered";
		if (/ended|no choices|wrong/.test(said) || !document.getElementById("complaint").hidden) return said + document.getElementById("complaint").textContent;
		await new Promise((done) => setTimeout(done, 50));
	}
	return "no answer within a minute: " + document.getElementById("answer-state").textContent + document.getElementById("starting").textContent;
})()`

// output is a script that gives a text that the desk would save.
func output(of, format string) string {
	return `outs.bytes("` + of + `", "` + format + `").then(textOf)`
}
