package version

import (
	"crypto/sha256"
	"fmt"
	"os"
	"runtime"
	"runtime/debug"
	"strings"
	"testing"
)

// What the Go command writes for a tagged commit, a commit without a tag, either with
// changes, and without version control: go help buildvcs, and the release notes of Go
// 1.24.
func TestOf(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		main, revision, modified string
		version                  string
		changed                  bool
	}{
		{"v1.2.3", "0123456789ab", "false", "v1.2.3", false},
		{"v1.2.3+dirty", "0123456789ab", "true", "v1.2.3", true},
		{"v1.3.0-rc.1", "0123456789ab", "false", "v1.3.0-rc.1", false},
		{"v0.0.0-20261126095310-d846245bbe13", "d846245bbe13", "false", "devel", false},
		{"v1.2.4-0.20261126095310-d846245bbe13+dirty", "d846245bbe13", "true", "devel", true},
		{"(devel)", "", "", "devel", false},
		{"", "", "", "devel", false},
	} {
		info := &debug.BuildInfo{Main: debug.Module{Version: c.main}}
		if c.revision != "" {
			info.Settings = []debug.BuildSetting{{Key: "vcs.revision", Value: c.revision}, {Key: "vcs.time", Value: "2026-11-26T09:53:10Z"}, {Key: "vcs.modified", Value: c.modified}}
		}
		got := Of(info)
		if got.Version != c.version || got.Commit != c.revision || got.Modified != c.changed {
			t.Errorf("%q is told as %+v, want version %s, commit %q", c.main, got, c.version, c.revision)
		}
	}
	if got := Of(nil); got.Version != "devel" || !strings.HasPrefix(got.Go, "go1.") {
		t.Errorf("without what the Go command notes: %+v", got)
	}
}

func TestWrite(t *testing.T) {
	t.Parallel()
	for want, b := range map[string]Build{
		"arrayodds version v1.2.3, go1.30 plan9/mips\ncommit: 0123\ncharts: echarts 1.0.0\ndesk: engine built by go1.29\n": {"v1.2.3", "0123", false, "go1.30", "plan9/mips", "echarts 1.0.0", "go1.29", "mips softfloat"},
		"arrayodds version devel, go1.30 plan9/mips\ncommit: 0123, with changes that are in no commit\ncharts: none in this build\ndesk: none in this build\n": {
			Version: "devel", Commit: "0123", Modified: true, Go: "go1.30", System: "plan9/mips"},
		"arrayodds version devel, go1.30 plan9/mips\ncommit: not known to this build\ncharts: none in this build\ndesk: none in this build\n": {
			Version: "devel", Go: "go1.30", System: "plan9/mips"},
	} {
		var got strings.Builder
		if err := b.Write(&got); err != nil || got.String() != want {
			t.Errorf("%+v is written as %q, %v; want %q", b, got.String(), err, want)
		}
	}
}

// A build is told from others by its commit and its Go, or by what it is byte for byte:
// two of no commit, or of one with changes, are not taken for one program.
func TestExact(t *testing.T) {
	t.Parallel()
	path, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	program, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	sum := fmt.Sprintf(", sha256 %x", sha256.Sum256(program))
	for want, b := range map[string]Build{
		"v1.2.3 0123, go1.30":                   {Version: "v1.2.3", Commit: "0123", Go: "go1.30"},
		"v1.2.3 0123, go1.31":                   {Version: "v1.2.3", Commit: "0123", Go: "go1.31"},
		"devel, go1.30" + sum:                   {Version: "devel", Go: "go1.30"},
		"devel 0123 with changes, go1.30" + sum: {Version: "devel", Commit: "0123", Modified: true, Go: "go1.30"},
	} {
		if got, err := b.Exact(); got != want || err != nil {
			t.Errorf("%q, %v; want %q", got, err, want)
		}
	}
}

// The level of a processor is the build setting of its name: go help buildconstraint, and
// go help environment.
func TestProcessor(t *testing.T) {
	t.Parallel()
	setting := debug.BuildSetting{Key: "GO" + strings.ToUpper(runtime.GOARCH), Value: "v3"}
	if got := Of(&debug.BuildInfo{Settings: []debug.BuildSetting{{Key: "GOOS", Value: "plan9"}, setting}}).Processor; got != runtime.GOARCH+" v3" {
		t.Error(got)
	}
	if got := Of(&debug.BuildInfo{}).Processor; got != runtime.GOARCH {
		t.Error(got)
	}
}
