package main

import (
	"os"
	"strings"
	"testing"

	"arrayodds/sim"
)

// TestSheet: the page for a customer is written where it is asked for, beside the report
// and as other formats are, and for no other command.
func TestSheet(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("site.toml", []byte(threeChoices+"\n[document]\ncustomer = \"Saltmarsh Ferries\"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	run := func(args ...string) (int, string, string) {
		var out, errOut strings.Builder
		p := program{in: strings.NewReader(""), out: &out, err: &errOut, simulate: sim.Run}
		status := p.run(t.Context(), append([]string{"arrayodds"}, args...))
		return status, out.String(), errOut.String()
	}
	status, out, errOut := run("compare", "site.toml", "--sheet", "sheet.html", "--accuracy", "20 %")
	page, err := os.ReadFile("sheet.html")
	if status != exitOK || err != nil || !strings.Contains(string(page), "Saltmarsh Ferries") || !strings.Contains(string(page), "Signature") || !strings.Contains(out, "wrote sheet.html") {
		t.Errorf("status %d, %v: %s%s", status, err, out, errOut)
	}
	status, out, errOut = run("compare", "site.toml", "--sheet", "-", "--accuracy", "20 %", "--workers", "1")
	if status != exitOK || out != string(page) || !strings.Contains(errOut, "wrote site.html") {
		t.Errorf("status %d: standard output is not what the file holds: %s", status, errOut)
	}
	if status, _, errOut = run("rank", "site.toml", "--sheet", "x.html"); status != exitUsage || !strings.Contains(errOut, "no flag --sheet") {
		t.Errorf("status %d: %s", status, errOut)
	}
}
