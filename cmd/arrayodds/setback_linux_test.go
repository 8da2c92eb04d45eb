package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// shownSetBack ends in a panic where a clock goes on.
const shownSetBack = `package main
import "time"
func main() {
	before, after := time.Now().Round(0), time.Now().Round(0)
	if !after.Before(before) {
		panic("the clock was not set back")
	}
}
`

// setBackProgram builds the program with a clock that is set back by a day at each look,
// and returns the folder in which it is, under its own name. The clock of the machine
// cannot be set back here, where others need it: that of Go's time package is.
func setBackProgram(t *testing.T) string {
	t.Helper()
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	from := filepath.Join(strings.TrimSpace(string(root)), "src", "time", "time.go")
	source, err := os.ReadFile(from)
	if err != nil {
		t.Fatal(err)
	}
	const look = "sec, nsec, mono := runtimeNow()\n"
	dir := t.TempDir()
	changed, overlay, shown := filepath.Join(dir, "time.go"), filepath.Join(dir, "overlay.json"), filepath.Join(dir, "shown.go")
	replace, err := json.Marshal(map[string]any{"Replace": map[string]string{from: changed}})
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		changed: strings.Replace(string(source), look, look+"\tlooks++\n\tsec -= looks * 24 * 60 * 60\n", 1) + "\nvar looks int64\n",
		overlay: string(replace),
		shown:   shownSetBack,
	} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, args := range [][]string{
		{"run", "-overlay", overlay, shown},
		{"build", "-overlay", overlay, "-o", filepath.Join(dir, "arrayodds"), "./cmd/arrayodds"},
	} {
		c := exec.Command("go", args...)
		c.Dir = top
		if out, err := c.CombinedOutput(); err != nil {
			t.Fatalf("go %s: %v\n%s", strings.Join(args, " "), err, out)
		}
	}
	return dir
}
