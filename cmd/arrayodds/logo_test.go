package main

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"strings"
	"testing"
)

// TestLogoIsAnInput: a logo is looked for beside the site file, and for standard input
// where one is; and no output goes over it, by a link either.
func TestLogoIsAnInput(t *testing.T) {
	t.Chdir(t.TempDir())
	var logo bytes.Buffer
	if err := png.Encode(&logo, image.NewGray(image.Rect(0, 0, 8, 8))); err != nil {
		t.Fatal(err)
	}
	site := threeChoices + "\n[document]\nlogo = \"logo.png\"\n"
	write := func(name, text string) {
		t.Helper()
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir("plans", 0o700); err != nil {
		t.Fatal(err)
	}
	write("plans/site.toml", site)
	run := func(want string, wantStatus int, args ...string) {
		t.Helper()
		var out, errOut strings.Builder
		p := program{in: strings.NewReader(site), out: &out, err: &errOut}
		if status := p.run(t.Context(), append([]string{"arrayodds"}, args...)); status != wantStatus || !strings.Contains(errOut.String(), want) {
			t.Errorf("%q: status %d, %s\nwant %d, %s", args, status, errOut.String(), wantStatus, want)
		}
	}
	const none = `document.logo: found "logo.png", which is not there`
	run(none, exitUsage, "check", "plans/site.toml")
	run(none, exitUsage, "check", "-")
	write("plans/logo.png", logo.String())
	run("", exitOK, "check", "plans/site.toml")
	run(none, exitUsage, "check", "-")
	write("logo.png", logo.String())
	run("", exitOK, "check", "-")

	if err := os.Symlink("plans/logo.png", "link.png"); err != nil {
		t.Fatal(err)
	}
	run("--json plans/logo.png would overwrite the logo", exitUsage, "compare", "plans/site.toml", "--json", "plans/logo.png")
	run("--html link.png would overwrite the logo", exitUsage, "compare", "plans/site.toml", "--html", "link.png")
	run("--csv logo.png would overwrite the logo", exitUsage, "compare", "-", "--csv", "logo.png")
	for _, name := range []string{"logo.png", "plans/logo.png"} {
		if got, err := os.ReadFile(name); err != nil || !bytes.Equal(got, logo.Bytes()) {
			t.Errorf("%s holds something else, %v", name, err)
		}
	}
}
