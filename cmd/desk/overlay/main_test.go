package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"arrayodds/array/thorough"
)

func TestWithoutMethods(t *testing.T) {
	const call = "if method := ptr.MethodByName(fieldName); method.IsValid() {\n"
	got, err := withoutMethods([]byte("a\n" + call + "// MethodByName\n"))
	if want := "a\nif method := (reflect.Value{}); method.IsValid() {\n// MethodByName\n"; err != nil || string(got) != want {
		t.Errorf("%q %v, want %q", got, err, want)
	}
	for source, want := range map[string]string{
		"":                                    "found ptr.MethodByName(fieldName) 0 times; right would be once",
		call + call:                           "found ptr.MethodByName(fieldName) 2 times; right would be once",
		"v.MethodByName(name)":                "found ptr.MethodByName(fieldName) 0 times; right would be once",
		call + "x := v.MethodByName(other)\n": "found another call of MethodByName; right would be one",
	} {
		if _, err := withoutMethods([]byte(source)); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: %v, want %s", source, err, want)
		}
	}
}

// TestOverlay: a program built with the overlay has fields in its templates, and no
// methods.
func TestOverlay(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a", "b")
	if err := write(dir); err != nil {
		t.Fatal(err)
	}
	var overlay struct{ Replace map[string]string }
	data, err := os.ReadFile(filepath.Join(dir, "overlay.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &overlay); err != nil {
		t.Fatal(err)
	}
	for from, to := range overlay.Replace {
		if !strings.HasSuffix(filepath.ToSlash(from), "/src/text/template/exec.go") || to != filepath.Join(dir, "exec.go") {
			t.Errorf("%s is replaced by %s", from, to)
		}
	}
	const program = `package main

import (
	"os"
	"text/template"
)

type value struct{ Field string }

func (value) Method() string { return "method" }

func main() {
	err := template.Must(template.New("").Parse("{{.Field}} {{.Method}}")).Execute(os.Stdout, value{"field"})
	if err != nil {
		os.Stdout.WriteString("none")
	}
}
`
	file := filepath.Join(dir, "main.go")
	if err := os.WriteFile(file, []byte(program), 0o644); err != nil {
		t.Fatal(err)
	}
	for want, flags := range map[string][]string{
		"field method": {"run", "-ldflags=-s -w", file},
		"field none":   {"run", "-ldflags=-s -w", "-overlay", filepath.Join(dir, "overlay.json"), file},
	} {
		if want == "field method" && !thorough.Asked() {
			continue // what the program says without the overlay is Go's own
		}
		if out, err := exec.Command("go", flags...).CombinedOutput(); err != nil || string(out) != want {
			t.Errorf("go %v: %s %v, want %s", flags, out, err, want)
		}
	}
	if len(overlay.Replace) != 1 {
		t.Errorf("%d files are replaced, want 1", len(overlay.Replace))
	}
}
