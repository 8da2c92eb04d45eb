package main

import (
	"slices"
	"strings"
	"testing"

	"github.com/urfave/cli/v2"
)

func TestArrange(t *testing.T) {
	c := &cli.Command{Name: "compare", Flags: []cli.Flag{&cli.StringFlag{Name: "json"}, &cli.BoolFlag{Name: "plain"}}}
	for in, want := range map[string]string{
		"":                            "--",
		"site":                        "-- site",
		"site --json out":             "--json out -- site",
		"--json out site":             "--json out -- site",
		"site --plain other":          "--plain -- site other",
		"site -json=out --plain":      "-json=out --plain -- site",
		"- --json -":                  "--json - -- -",
		"site --unknown x":            "-- site",
		"--unknown x site":            "-- site",
		"--unknown site":              "-- site",
		"--unknown=x site":            "-- site",
		"--unknown x site y":          "-- site y",
		"--unknown x --more y site":   "-- site",
		"--unknown x --more y":        "-- x",
		"site --plain=maybe":          "-- site",
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
		if got := arrange(c, strings.Fields(in)).args; !slices.Equal(got, strings.Fields(want)) {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
}

func TestArrangeRefuses(t *testing.T) {
	c := &cli.Command{Name: "compare", Flags: []cli.Flag{&cli.StringFlag{Name: "seed"}, &cli.BoolFlag{Name: "plain"}, &cli.StringSliceFlag{Name: "json"}}}
	for in, want := range map[string]string{
		"--seed 1 site --seed=2 -seed 3":    "arrayodds: --seed is given more than once; right would be once",
		"--plain --seed --plain":            "arrayodds: --plain is given more than once; right would be once",
		"--seed 1 --plain --seed 1 --plain": "arrayodds: --seed is given more than once; right would be once\narrayodds: --plain is given more than once; right would be once",
		"--json a --json b site --json=c":   "",
		"--seed 1 -- --seed 2":              "",
		"--seed 1 --seed 2 --help":          "",
		"--unknown --seeed --seed 1":        "arrayodds: there is no flag --unknown; see arrayodds compare --help\narrayodds: there is no flag --seeed (did you mean --seed?); see arrayodds compare --help",
		"--plain=perhaps --seed":            "arrayodds: --plain: found \"perhaps\"; right would be --plain alone, or --plain=false",
	} {
		if got := arrange(c, strings.Fields(in)).errs; got.Error() != want {
			t.Errorf("%q: %v, want %s", in, got, want)
		}
	}
}

func TestSitePage(t *testing.T) {
	for site, want := range map[string]string{
		"-":              "report.html vary.html",
		"site.toml":      "site.html site-vary.html",
		"a/b.c.toml":     "a/b.c.html a/b.c-vary.html",
		"/x/site":        "/x/site.html /x/site-vary.html",
		"site.html":      "site.html.html site.html-vary.html",
		"site.toml.toml": "site.toml.html site.toml-vary.html",
	} {
		if got := sitePage(site, "") + " " + sitePage(site, "vary"); got != want {
			t.Errorf("the pages of %s go to %s, want %s", site, got, want)
		}
	}
}
