package headless

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"arrayodds/array/thorough"
)

// A browser that passes is looked at with make thorough alone: make test looks at the one
// that it starts for all packages.
func TestCheck(t *testing.T) {
	if thorough.Asked() && !testing.Short() {
		path, err := Find()
		if err != nil {
			t.Fatal(err)
		}
		if err := Check(path); err != nil {
			t.Error(err)
		}
	}
	if runtime.GOOS == "windows" {
		return // has no scripts that start like this
	}
	for name, script := range map[string]string{"ends": "#!/bin/sh\nexit 1\n", "says what it lacks": "#!/bin/sh\necho no libraries >&2\nexit 127\n"} {
		path := filepath.Join(t.TempDir(), "chromium")
		if err := os.WriteFile(path, []byte(script), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := Check(path); err == nil {
			t.Errorf("a browser that %s passes", name)
		}
	}
}
