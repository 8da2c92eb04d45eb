package fleet

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"arrayodds/array/state/folder"
)

// logged is a site whose log has so many failures in 400 drive-years of 1.5 % each.
const logged = `service_life = "5 y"
[[drives]]
label = "a"
capacity = "12 TB"
life = { afr = "1.5 %%" }
transfer = "200 MB/s"
[[choices]]
label = "c"
drive = "a"
layout = "RAID 6"
drives = 8
[[log]]
drive = "a"
failures = %d
drives = 200
since = 2024-01-01
until = 2026-01-01
`

// loggedFleet is a fleet of sites, with so many failures each in their logs.
func loggedFleet(t *testing.T, failures ...int) Request {
	t.Helper()
	dir := t.TempDir()
	for i, n := range failures {
		site := filepath.Join(dir, fmt.Sprintf("site%02d", i))
		if err := os.Mkdir(site, 0o755); err != nil {
			t.Fatal(err)
		}
		for name, text := range map[string]string{"site.toml": fmt.Sprintf(logged, n), "x" + folder.Ending: "age = \"1 y\"\n"} {
			if err := os.WriteFile(filepath.Join(site, name), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	return readMade(t, dir, usual())
}

// What the logs made of the rates is said of each site, and what of it is unlikely: 6
// failures are what is expected, 60 are ten times that.
func TestLogsAreTold(t *testing.T) {
	t.Parallel()
	q := loggedFleet(t, 6, 60)
	notes := ask(t, 2, q.Arrays...).Notes
	if len(notes) != 2 {
		t.Fatalf("%d notes: %q", len(notes), notes)
	}
	for i, note := range notes {
		if want := fmt.Sprintf("site%02d/site.toml: The failure rate of \"a\" is that of its law updated by", i); !strings.HasPrefix(note, want) {
			t.Errorf("note %q, want %q to begin it", note, want)
		}
		if unlikely := strings.Contains(note, "unlikely"); unlikely != (i == 1) {
			t.Errorf("unlikely: %v in %q", unlikely, note)
		}
	}
	for _, c := range Cautions() {
		if strings.Contains(c, "stated is taken for certain") {
			t.Errorf("a rate that a log updates is not taken for certain: %q", c)
		}
	}
}

// Of very many logs some are told of, and the rest counted.
func TestManyLogs(t *testing.T) {
	t.Parallel()
	notes := logNotes(t.Context(), loggedFleet(t, make([]int, mostLogs+3)...).Arrays)
	if n := len(notes); n != mostLogs+1 || !strings.Contains(notes[n-1], "3 site files more") {
		t.Errorf("%d notes, the last %q", n, notes[n-1])
	}
}
