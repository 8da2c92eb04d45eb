package main

import (
	"slices"
	"strings"
	"testing"

	"github.com/urfave/cli/v2"
)

func TestArrange(t *testing.T) {
	flags := []cli.Flag{&cli.StringFlag{Name: "json"}, &cli.BoolFlag{Name: "plain"}}
	for in, want := range map[string]string{
		"":                            "--",
		"site":                        "-- site",
		"site --json out":             "--json out -- site",
		"--json out site":             "--json out -- site",
		"site --plain other":          "--plain -- site other",
		"site -json=out --plain":      "-json=out --plain -- site",
		"- --json -":                  "--json - -- -",
		"site --unknown x":            "--unknown -- site x",
		"site --json":                 "--json= -- site",
		"site --json --plain":         "--json= --plain -- site",
		"site --json -plain":          "--json= -plain -- site",
		"site --json -1":              "--json -1 -- site",
		"--plain -- --json site":      "--plain -- --json site",
		"--json -- site --plain":      "--json= -- site --plain",
		"site --help":                 "--help",
		"site -h --plain":             "-h",
		"--help site":                 "--help",
		"--json --help site":          "--help",
		"--json=--help site":          "--json=--help -- site",
		"-- --help":                   "-- --help",
		"-- -":                        "-- -",
		"site --plain=false --json a": "--plain=false --json a -- site",
	} {
		if got := arrange(flags, strings.Fields(in)).args; !slices.Equal(got, strings.Fields(want)) {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
}

func TestArrangeRefusesRepeats(t *testing.T) {
	flags := []cli.Flag{&cli.StringFlag{Name: "seed"}, &cli.BoolFlag{Name: "plain"}, &cli.StringSliceFlag{Name: "json"}}
	for in, want := range map[string]string{
		"--seed 1 site --seed=2 -seed 3":     "arrayodds: --seed is given more than once; right would be once",
		"--plain --seed --plain":             "arrayodds: --plain is given more than once; right would be once",
		"--seed 1 --plain --seed 1 --plain":  "arrayodds: --seed is given more than once; right would be once\narrayodds: --plain is given more than once; right would be once",
		"--json a --json b site --json=c":    "",
		"--seed 1 -- --seed 2":               "",
		"--seed 1 --seed 2 --help":           "",
		"--unknown --unknown --seed --json=": "",
	} {
		if got := arrange(flags, strings.Fields(in)).errs; got.Error() != want {
			t.Errorf("%q: %v, want %s", in, got, want)
		}
	}
}

func TestReportBeside(t *testing.T) {
	for site, want := range map[string]string{
		"-":              "report.html",
		"site.toml":      "site.html",
		"a/b.c.toml":     "a/b.c.html",
		"/x/site":        "/x/site.html",
		"site.html":      "site.html.html",
		"site.toml.toml": "site.toml.html",
	} {
		if got := reportBeside(site); got != want {
			t.Errorf("the report of %s goes to %s, want %s", site, got, want)
		}
	}
}
