// Package version says what a build of the program is: from which commit, by which Go,
// and with what in it. It says what the build itself records; no time is in it.
package version

import (
	"fmt"
	"io"
	"runtime"
	"runtime/debug"
	"strings"

	"golang.org/x/mod/module"
	"golang.org/x/mod/semver"
)

// devel is the version of a build from no tagged commit.
const devel = "devel"

// Build is what a build is made of.
type Build struct {
	Version  string // of the program: that of the tag on its commit, else "devel"
	Commit   string // "" where the build does not know
	Modified bool   // with changes that are in no commit
	Go       string // such as "go1.26.8"
	System   string // and processor, such as "linux/amd64"
	Charts   string // the chart script, such as "echarts 6.1.0"; "" without one
	Engine   string // the Go that built the engine of the desk; "" without one

	Processor string // that it is for, with its level, such as "amd64 v1"
}

// Of returns what the Go command noted of a build, nil where it noted nothing.
func Of(info *debug.BuildInfo) Build {
	b := Build{Version: devel, Go: runtime.Version(), System: runtime.GOOS + "/" + runtime.GOARCH, Processor: runtime.GOARCH}
	if info == nil {
		return b
	}
	tagged := semver.IsValid(info.Main.Version) && !module.IsPseudoVersion(withoutBuild(info.Main.Version))
	if tagged {
		b.Version = withoutBuild(info.Main.Version)
	}
	b.Processor = processorOf(info.Settings)
	for _, s := range info.Settings {
		switch s.Key {
		case "vcs.revision":
			b.Commit = s.Value
		case "vcs.modified":
			b.Modified = s.Value == "true"
		}
	}
	return b
}

// withoutBuild returns a version without what the Go command puts behind one of a
// changed work tree: "+dirty".
func withoutBuild(v string) string { return strings.TrimSuffix(v, semver.Build(v)) }

// String names the build as far as it is known: its version and commit, and whether there
// were changes beside.
func (b Build) String() string {
	text := b.Version
	if b.Commit != "" {
		text += " " + b.Commit
	}
	if b.Modified {
		text += " with changes"
	}
	return text
}

// Write writes a line for each thing that a build is made of.
func (b Build) Write(w io.Writer) error {
	commit := b.Commit
	switch {
	case commit == "":
		commit = "not known to this build"
	case b.Modified:
		commit += ", with changes that are in no commit"
	}
	engine := "none in this build"
	if b.Engine != "" {
		engine = "engine built by " + b.Engine
	}
	charts := b.Charts
	if charts == "" {
		charts = "none in this build"
	}
	_, err := fmt.Fprintf(w, "arrayodds version %s, %s %s\ncommit: %s\ncharts: %s\ndesk: %s\n", b.Version, b.Go, b.System, commit, charts, engine)
	return err
}
