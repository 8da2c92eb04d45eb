package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/cmd/arrayodds/export/schematest"
	"arrayodds/sim"
)

// written are command lines that between them write every kind of JSON, with as much in
// it as there can be, the first of a kind with the most. The site of each is a file of the
// repository.
var written = []struct{ kind, input, args string }{
	{"compare", everySite, "compare IN --accuracy 60% --max-trials 1000"},
	{"compare", demoSite, "compare IN --accuracy 60% --max-trials 1000"},
	{"compare", demoSite, "compare IN --accuracy 60% --plain --max-trials 1000"},
	{"choose", everySite, "choose IN --accuracy 60% --max-trials 1000"},
	{"size", demoSite, "size IN"},
	{"size", demoSite, "size IN --bays 3"},
	{"vary", demoSite, "vary IN --accuracy 60% --max-trials 1000 --over care.response=4h..48h --points 3 --target 0.001"},
	{"vary", demoSite, "vary IN --accuracy 60% --max-trials 1000 --over choices.*.drives=3..30 --points 4"},
	{"rank", demoSite, "rank IN --accuracy 60% --max-trials 1000 --choice RAID~5,~6~x~18~TB"},
	{"rank", rankSite, "rank IN --accuracy 60% --max-trials 1000 --thorough"},
	{"plan", demoSite, "plan IN --accuracy 60% --max-trials 1000 --choice Triple~parity,~8~x~18~TB"},
	{"now", readmeSite, "now IN --accuracy 60% --max-trials 1000 --state testdata/readme/tonight.toml"},
	{"drill", demoSite, "now IN --accuracy 60% --max-trials 1000 --drill --choice RAID~5,~6~x~18~TB"},
	{"fleet", readmeFleet, "now --accuracy 60% --max-trials 1000 --fleet IN"},
	{"fit", "testdata/readme/fleet.csv", "fit IN --until 2026-06-30"},
	{"fit", "../../array/record/testdata/messy.csv", "fit IN --until 2026-06-30"},
}

// dear are the kinds that take longest to find.
var dear = map[string]bool{"choose": true, "vary": true}

const (
	demoSite    = "../../testdata/saltmarsh.toml"
	everySite   = "../../array/site/testdata/everything.toml"
	readmeSite  = "heron.toml" // which the README shows
	readmeFleet = "locks"      // and this folder
	rankSite    = "../../array/site/testdata/small.toml"
)

// What the commands write is what the schema says, key by key, and the schema would notice
// a key of it that goes or becomes something else. Of each kind that is found quickly make
// test has the first, make thorough all; what scripts write of the others is held against
// the schema there.
func TestSchema(t *testing.T) {
	if testing.Short() {
		t.Skip("some seconds; the scripts look at the JSON that they ask for as well")
	}
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	heron, locks := filepath.Join(t.TempDir(), readmeSite), filepath.Join(t.TempDir(), readmeFleet)
	if err := os.CopyFS(locks, os.DirFS("testdata/readme/locks")); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{heron, filepath.Join(locks, "site.toml")} {
		if err := os.WriteFile(path, []byte(siteOf(t, string(readme))), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	seen := map[string]bool{}
	for _, w := range written {
		if (seen[w.kind] || dear[w.kind]) && !thorough.Asked() {
			seen[w.kind] = true
			continue
		}
		seen[w.kind] = true
		t.Run(w.kind, func(t *testing.T) {
			at := filepath.Join(t.TempDir(), "x")
			switch w.input {
			case readmeSite:
				w.input = heron
			case readmeFleet:
				w.input = locks
			}
			args := append(strings.Fields(w.args), "--json", at+".json")
			if w.kind != "size" {
				args = append(args, "--html", at+".html")
			}
			for i := range args {
				args[i] = strings.ReplaceAll(args[i], "~", " ")
				if args[i] == "IN" {
					args[i] = w.input
				}
			}
			var out, errs strings.Builder
			p := program{in: strings.NewReader(""), out: &out, err: &errs, simulate: sim.Run}
			if status := p.run(t.Context(), append([]string{"arrayodds"}, args...)); status != exitOK {
				t.Fatalf("%s: status %d: %s", w.args, status, errs.String())
			}
			text, err := os.ReadFile(at + ".json")
			if err != nil {
				t.Fatal(err)
			}
			for _, kind := range []string{w.kind, ""} {
				if err := schematest.Check(kind, text); err != nil {
					t.Error(err)
				}
			}
			if err := schematest.CheckExactly(w.kind, text); err != nil {
				t.Error(err)
			}
			unnoticed, keys := schematest.Noticed(w.kind, text)
			for _, err := range unnoticed {
				t.Error(err)
			}
			if keys < 20 {
				t.Errorf("%d keys were tried", keys)
			}
		})
	}
	for _, kind := range schematest.Kinds() {
		if !seen[kind] {
			t.Errorf("nothing here writes the JSON of %s; right would be a row that does", kind)
		}
	}
}
