// Package script holds the script that draws the charts: the npm package echarts,
// put into dist before the build (see the Makefile) and kept out of git. Beside it are
// put the lock file that it was fetched by and the licences of the packages that are
// in it, since whoever hands the script on owes their notices.
package script

import (
	"embed"
	"io"
	"io/fs"
	"strings"
	"sync"
)

// files holds what was put in place, and always dist's README, so that the pattern
// matches without it.
//
//go:embed dist
var files embed.FS

const name = "dist/echarts.min.js"

// Charts returns the chart script behind a comment with the notices that it owes. It is
// empty where both were not put in place before the build.
func Charts() string { return charts() }

// InPlace reports whether there is a chart script.
func InPlace() bool { return Charts() != "" }

var charts = sync.OnceValue(func() string { return read(files) })

// read returns the script of those files. It is a million bytes, so it is copied once.
func read(files fs.FS) string {
	script, err := files.Open(name)
	if err != nil {
		return ""
	}
	defer script.Close()
	info, err := script.Stat()
	if err != nil {
		return ""
	}
	packages, err := packagesIn(files)
	if err != nil {
		return ""
	}
	var b strings.Builder
	notices := comment(packages)
	b.Grow(len(notices) + int(info.Size()))
	b.WriteString(notices)
	if _, err := io.Copy(&b, script); err != nil {
		return ""
	}
	return b.String()
}
