package licences

import (
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/charts/script"
)

// permissive are the licences that works in the program may have, by their identifiers
// in the SPDX License List: all want their text handed on and nothing of what they are
// put into. Another one is for people to read first.
var permissive = []string{"0BSD", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "BSL-1.0", "ISC", "MIT"}

// TestEveryModuleHasALicence asks the Go command, apart from what collects, which
// modules are linked for each system that is released, and looks for each in this build.
// Without make thorough it asks for one processor of two systems, and for the desk.
func TestEveryModuleHasALicence(t *testing.T) {
	t.Parallel()
	all, err := All()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for i, of := range []struct{ system, processor, folder string }{
		{"linux", "amd64", "arrayodds/cmd/arrayodds"}, {"linux", "arm64", "arrayodds/cmd/arrayodds"},
		{"darwin", "amd64", "arrayodds/cmd/arrayodds"}, {"windows", "amd64", "arrayodds/cmd/arrayodds"},
		{"windows", "arm64", "arrayodds/cmd/arrayodds"}, {"darwin", "arm64", "arrayodds/cmd/arrayodds"},
		{"js", "wasm", "arrayodds/cmd/desk"},
	} {
		if !thorough.Part(i, 3) {
			continue
		}
		part := Binary
		if of.system == "js" {
			part = Engine
		}
		c := exec.CommandContext(t.Context(), "go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}{{end}}{{end}}", of.folder)
		c.Env = append(os.Environ(), "GOOS="+of.system, "GOARCH="+of.processor, "CGO_ENABLED=0")
		out, err := c.Output()
		if err != nil {
			t.Fatalf("go list for %s/%s: %v", of.system, of.processor, err)
		}
		modules := strings.Split(strings.TrimSpace(string(out)), "\n")
		slices.Sort(modules)
		modules = slices.Compact(modules)
		if len(modules) < 5 {
			t.Fatalf("only %q is linked for %s", modules, of.system)
		}
		for _, m := range modules {
			seen[m] = true
			if !slices.ContainsFunc(all, func(w Work) bool { return w.Name+" "+w.Version == m && slices.Contains(w.Parts, part) }) {
				t.Errorf("%s is linked for %s/%s, and no licence of it is in this build (make licences)", m, of.system, of.processor)
			}
		}
	}
	for _, w := range all {
		if w.Kind == Module && !seen[w.Name+" "+w.Version] {
			t.Errorf("%s %s is nowhere linked (make licences)", w.Name, w.Version)
		}
	}
}

// TestNoLicenceIsUnknown looks at what is in this build: every work has a text and a
// licence that is known, and the chart script's packages are among them.
func TestNoLicenceIsUnknown(t *testing.T) {
	t.Parallel()
	all, err := All()
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]bool{}
	for _, w := range all {
		names[w.Name+" "+w.Version] = true
		if len(w.Licences) == 0 || len(w.Texts) == 0 || len(w.Parts) == 0 {
			t.Errorf("%s has licences %v, %d texts, is in %v", w.Name, w.Licences, len(w.Texts), w.Parts)
		}
		for _, l := range w.Licences {
			if !slices.Contains(permissive, l) {
				t.Errorf("%s is under %q, which is not among %v", w.Name, l, permissive)
			}
		}
		for _, text := range w.Texts {
			if len(text.Text) < 100 {
				t.Errorf("%s: %s has only %q", w.Name, text.File, text.Text)
			}
		}
	}
	packages, err := script.Packages()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range packages {
		if !names[p.Name+" "+p.Version] {
			t.Errorf("no licence of %s %s is in this build (make licences)", p.Name, p.Version)
		}
	}
	if all[0].Kind != Program || all[1].Kind != Language {
		t.Errorf("the first two are %s and %s, want the program and Go", all[0].Name, all[1].Name)
	}
}
