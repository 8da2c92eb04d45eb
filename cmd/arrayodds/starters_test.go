package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"arrayodds/array/site/starter"
	"arrayodds/array/thorough"
)

// TestStarters: every invented site to begin with is compared, with a choice to buy, and
// searched, with a design that meets its goal.
func TestStarters(t *testing.T) {
	t.Parallel()
	thorough.Only(t, "a script has the first of them")
	for _, s := range starter.Sites() {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, "site.toml"), []byte(s.Text), 0o600); err != nil {
			t.Fatal(err)
		}
		for command, says := range map[string]string{"compare": "What to buy: ", "choose": " meets"} {
			c := exec.Command("arrayodds", command, "site.toml", "--html", command+".html")
			c.Dir = dir
			if out, err := c.CombinedOutput(); err != nil || !strings.Contains(string(out), says) {
				t.Errorf("%s of %s: %v\n%s", command, s.Name, err, out)
			}
		}
	}
}
