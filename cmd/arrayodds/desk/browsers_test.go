package desk_test

import (
	"flag"
	"os"
	"os/exec"
	"testing"

	"arrayodds/cmd/arrayodds/desk"
)

var browsers = flag.Bool("browsers", false, "try Firefox and WebKitGTK too, which both must be there")

// Other engines of browsers give the same digits. To compile the engine takes them as
// long as all other tests of the page.
func TestOtherBrowsers(t *testing.T) {
	t.Parallel()
	if !*browsers {
		t.Skip("make browsers starts two further browsers")
	}
	look := func(t *testing.T, names ...string) string {
		for _, name := range names {
			if path, err := exec.LookPath(name); err == nil {
				return path
			}
		}
		t.Fatalf("there is no %s (Debian: firefox-esr; webkit2gtk-driver and xvfb)", names[0])
		return ""
	}
	for name, start := range map[string]func(*testing.T) driven{
		"Firefox":   func(t *testing.T) driven { return startFirefox(t, look(t, "firefox-esr", "firefox")) },
		"WebKitGTK": func(t *testing.T) driven { return startWebKit(t, look(t, "WebKitWebDriver"), look(t, "Xvfb")) },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			text := demo(t)
			path := written(t, desk.Given{Name: "saltmarsh.toml", Text: text})
			browser := start(t)
			if err := browser.open("file://" + path); err != nil {
				t.Fatal(err)
			}
			got, err := browser.run("return " + answered)
			if err != nil || got != "answered" {
				t.Fatal(got, err)
			}
			if got, err = browser.run("return " + output("compare", "json")); err != nil || got != jsonOf(t, text, os.DirFS(t.TempDir())) {
				t.Errorf("the desk's JSON of the demo is not the command's (%d bytes), %v", len(got), err)
			}
		})
	}
}
