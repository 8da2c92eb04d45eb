// Package script holds the script that draws the charts: the npm package echarts,
// put into dist before the build (see the Makefile) and kept out of git. Beside it are
// put the lock file that it was fetched by and the licences of the packages that are
// in it, since whoever hands the script on owes their notices.
package script

import (
	"embed"
	"io/fs"
	"sync"
)

// files holds what was put in place, and always dist's README, so that the pattern
// matches without it.
//
//go:embed dist
var files embed.FS

const name = "dist/echarts.min.js"

// Charts returns the chart script behind a comment with the notices that it owes, or
// nil where both were not put in place before the build.
func Charts() []byte { return charts() }

var charts = sync.OnceValue(func() []byte { return read(files) })

func read(files fs.FS) []byte {
	script, err := fs.ReadFile(files, name)
	if err != nil {
		return nil
	}
	packages, err := packagesIn(files)
	if err != nil {
		return nil
	}
	return append([]byte(comment(packages)), script...)
}
