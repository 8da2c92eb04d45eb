package headless

import (
	"errors"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// made is a system with these variables and files; those of the files that the
// search path leads to are in /bin.
func made(goos string, env map[string]string, files ...string) system {
	has := func(path string) bool { return slices.Contains(files, path) }
	return system{
		goos:   goos,
		getenv: func(name string) string { return env[name] },
		lookPath: func(name string) (string, error) {
			for _, path := range []string{name, "/bin/" + name} {
				if has(path) {
					return path, nil
				}
			}
			return "", &exec.Error{Name: name, Err: exec.ErrNotFound}
		},
		isFile:  has,
		fetched: "/work/dist/chromium.sh",
	}
}

// The names of commands, applications and folders are those of Debian's, Ubuntu's,
// Fedora's and Arch's packages and of the vendors' own installers, from memory.
func TestFind(t *testing.T) {
	const macChrome = "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome"
	const macChromium = "/Users/a/Applications/Chromium.app/Contents/MacOS/Chromium"
	windows := map[string]string{"ProgramFiles": `C:\Program Files`, "ProgramFiles(x86)": `C:\Program Files (x86)`, "LocalAppData": `C:\Users\a\AppData\Local`}
	for _, test := range []struct {
		name string
		on   system
		want string
	}{
		{"Debian", made("linux", nil, "/bin/chromium"), "/bin/chromium"},
		{"Fedora", made("linux", nil, "/bin/chromium-browser"), "/bin/chromium-browser"},
		{"the vendor's package", made("linux", nil, "/bin/google-chrome-stable"), "/bin/google-chrome-stable"},
		{"another vendor's", made("linux", nil, "/bin/microsoft-edge"), "/bin/microsoft-edge"},
		{"two", made("linux", nil, "/bin/google-chrome", "/bin/chromium"), "/bin/chromium"},
		{"fetched", made("linux", nil, "/bin/chromium", "/work/dist/chromium.sh"), "/work/dist/chromium.sh"},
		{"a path asked for", made("linux", map[string]string{"CHROME": "/opt/b"}, "/bin/chromium", "/work/dist/chromium.sh", "/opt/b"), "/opt/b"},
		{"a command asked for", made("linux", map[string]string{"CHROME": "chrome"}, "/bin/chromium", "/bin/chrome"), "/bin/chrome"},
		{"a Mac", made("darwin", nil, macChrome), macChrome},
		{"a Mac's user", made("darwin", map[string]string{"HOME": "/Users/a"}, macChromium), macChromium},
		{"a Mac's command", made("darwin", nil, macChrome, "/bin/chromium"), "/bin/chromium"},
		{"Windows", made("windows", windows, `C:\Program Files\Google\Chrome\Application\chrome.exe`), `C:\Program Files\Google\Chrome\Application\chrome.exe`},
		{"a user on Windows", made("windows", windows, `C:\Users\a\AppData\Local\Chromium\Application\chrome.exe`), `C:\Users\a\AppData\Local\Chromium\Application\chrome.exe`},
		{"as Windows comes", made("windows", windows, `C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe`), `C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe`},
	} {
		if got, err := test.on.find(); got != test.want || err != nil {
			t.Errorf("%s: %q, %v, want %q", test.name, got, err, test.want)
		}
	}
}

func TestFindNone(t *testing.T) {
	if got, err := made("linux", nil, "/bin/firefox", "/Applications/Chromium.app/Contents/MacOS/Chromium").find(); !errors.Is(err, errNone) {
		t.Errorf("found %q, %v, want none", got, err)
	}
	// What is asked for is not replaced by another.
	got, err := made("linux", map[string]string{"CHROME": "/opt/b"}, "/bin/chromium").find()
	if err == nil || !strings.Contains(err.Error(), "CHROME") || !strings.Contains(err.Error(), "/opt/b") {
		t.Errorf("found %q, %v, want an error that says that CHROME names /opt/b", got, err)
	}
}
