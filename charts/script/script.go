// Package script holds the script that draws the charts: the npm package echarts,
// put into dist before the build (see the Makefile) and kept out of git.
package script

import (
	"embed"
	"io/fs"
)

// files holds the script where it was put in place, and always dist's README, so
// that the pattern matches without it.
//
//go:embed dist
var files embed.FS

const name = "dist/echarts.min.js"

// Charts returns the chart script, or nil where it was not put in place before the
// build.
func Charts() []byte { return read(files) }

func read(files fs.FS) []byte {
	script, err := fs.ReadFile(files, name)
	if err != nil {
		return nil
	}
	return script
}
