package main

import (
	"encoding/csv"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"arrayodds/sim"
)

var update = flag.Bool("update", false, "write what is seen into the README anew")

// TestReadme types what the README says is typed, and sees what it says is seen.
func TestReadme(t *testing.T) {
	path, err := filepath.Abs("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	wrongSite, err := os.ReadFile("testdata/readme/wrong.toml")
	if err != nil {
		t.Fatal(err)
	}
	fleet, err := os.ReadFile("testdata/readme/fleet.csv")
	if err != nil {
		t.Fatal(err)
	}
	tonight, err := os.ReadFile("testdata/readme/tonight.toml")
	if err != nil {
		t.Fatal(err)
	}
	states, err := filepath.Glob("testdata/readme/locks/*")
	if err != nil || len(states) == 0 {
		t.Fatalf("%v, %d states", err, len(states))
	}
	locks := map[string][]byte{"site.toml": []byte(siteOf(t, string(text)))}
	for _, name := range states {
		if locks[filepath.Base(name)], err = os.ReadFile(name); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(t.TempDir())
	if err := os.Mkdir("locks", 0o755); err != nil {
		t.Fatal(err)
	}
	for name, data := range locks {
		if err := os.WriteFile(filepath.Join("locks", name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for name, data := range map[string]string{"heron.toml": siteOf(t, string(text)), "logged.toml": siteOf(t, string(text)) + "\n" + logOf(t, string(text)), "wrong.toml": string(wrongSite), "fleet.csv": string(fleet), "tonight.toml": string(tonight)} {
		if err := os.WriteFile(name, []byte(data), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	const prompt = "    $ arrayodds "
	var fresh strings.Builder
	shown := 0
	lines := strings.SplitAfter(string(text), "\n")
	for i := 0; i < len(lines); {
		fresh.WriteString(lines[i])
		typed, ok := strings.CutPrefix(lines[i], prompt)
		i++
		if !ok {
			continue
		}
		shown++
		var was strings.Builder
		for i < len(lines) && (lines[i] == "\n" || strings.HasPrefix(lines[i], "    ")) {
			was.WriteString(lines[i])
			i++
		}
		var seen strings.Builder
		p := program{in: strings.NewReader(""), out: &seen, err: &seen, simulate: sim.Run}
		p.run(t.Context(), append([]string{"arrayodds"}, words(t, typed)...))
		now := shownPart(indented(seen.String())+"\n", was.String())
		fresh.WriteString(now)
		if now != was.String() && !*update {
			t.Errorf("arrayodds %sshows\n%s\nthe README says\n%s\n(go test ./cmd/arrayodds -run Readme -update mends it)", typed, now, was.String())
		}
	}
	if shown != 14 {
		t.Errorf("the README shows %d commands, want 14", shown)
	}
	if *update {
		if err := os.WriteFile(path, []byte(fresh.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// shownPart returns what is seen, and only its first lines where the README leaves
// the rest out with three dots.
func shownPart(seen, was string) string {
	const dots = "    ...\n"
	kept, cut := strings.CutSuffix(was, dots+"\n")
	if !cut {
		return seen
	}
	lines := strings.SplitAfter(seen, "\n")
	return strings.Join(lines[:min(len(lines), strings.Count(kept, "\n"))], "") + dots + "\n"
}

// words splits a command line at its blanks, but for those in double quotes.
func words(t *testing.T, typed string) []string {
	t.Helper()
	r := csv.NewReader(strings.NewReader(strings.TrimSpace(typed)))
	r.Comma = ' '
	all, err := r.Read()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// logOf returns the log that the README shows.
func logOf(t *testing.T, text string) string {
	t.Helper()
	_, rest, ok := strings.Cut(text, "    [[log]]\n")
	log, _, ends := strings.Cut(rest, "\n\n")
	if !ok || !ends {
		t.Fatal("no log in the README")
	}
	return "[[log]]\n" + strings.ReplaceAll("\n"+log, "\n    ", "\n") + "\n"
}

// siteOf returns the site file that the README shows, the first indented block under
// that heading.
func siteOf(t *testing.T, text string) string {
	t.Helper()
	_, rest, ok := strings.Cut(text, "## The site file\n")
	at := strings.Index(rest, "\n\n    ")
	if !ok || at < 0 {
		t.Fatal("the README shows no site file")
	}
	var b strings.Builder
	for line := range strings.Lines(rest[at+2:]) {
		inner, isCode := strings.CutPrefix(line, "    ")
		if !isCode && line != "\n" {
			break
		}
		b.WriteString(inner)
	}
	return b.String()
}

// indented returns text as a code block.
func indented(text string) string {
	var b strings.Builder
	for line := range strings.Lines(text) {
		if line != "\n" {
			b.WriteString("    ")
		}
		b.WriteString(line)
	}
	return b.String()
}
