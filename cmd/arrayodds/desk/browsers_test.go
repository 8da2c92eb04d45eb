package desk_test

import (
	"os"
	"os/exec"
	"testing"

	"arrayodds/cmd/arrayodds/desk"
)

// Other engines of browsers give the same digits.
func TestOtherBrowsers(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("starts two further browsers")
	}
	look := func(names ...string) string {
		for _, name := range names {
			if path, err := exec.LookPath(name); err == nil {
				return path
			}
		}
		return ""
	}
	for name, start := range map[string]func(*testing.T) driven{
		"Firefox": func(t *testing.T) driven {
			path := look("firefox-esr", "firefox")
			if path == "" {
				t.Skip("there is no Firefox")
			}
			return startFirefox(t, path)
		},
		"WebKitGTK": func(t *testing.T) driven {
			driver, xvfb := look("WebKitWebDriver"), look("Xvfb")
			if driver == "" || xvfb == "" {
				t.Skip("there is no driver of WebKitGTK, or no Xvfb")
			}
			return startWebKit(t, driver, xvfb)
		},
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
