package script

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"path"
	"strings"
)

// Package is an npm package that the chart script is made of.
type Package struct {
	Name, Version string
	Licence       string // by its SPDX identifier, as the package says
	Texts         []Text // of its licence and notices
}

// Text is a file of a package.
type Text struct{ Name, Text string }

// Packages returns the packages that the chart script is made of, echarts first. The
// error says what was not put in place.
func Packages() ([]Package, error) { return packagesIn(files) }

// packagesIn returns the packages of the lock file beside the script: npm ci fetches
// those versions and no others.
func packagesIn(files fs.FS) ([]Package, error) {
	data, err := fs.ReadFile(files, "dist/package-lock.json")
	if err != nil {
		return nil, fmt.Errorf("the chart script is not in place (make setup fetches it): %w", err)
	}
	var lock struct {
		Packages map[string]struct{ Version, License string }
	}
	if err := json.Unmarshal(data, &lock); err != nil {
		return nil, fmt.Errorf("the lock file of the chart script: %w", err)
	}
	var all []Package
	for _, name := range []string{"echarts", "zrender", "tslib"} {
		of, ok := lock.Packages["node_modules/"+name]
		if !ok {
			return nil, fmt.Errorf("the lock file of the chart script names no package %s", name)
		}
		p := Package{Name: name, Version: of.Version, Licence: of.License}
		folder := path.Join("dist/licences", name)
		entries, err := fs.ReadDir(files, folder)
		if err != nil {
			return nil, fmt.Errorf("the licence of %s is not in place (make setup puts it there): %w", name, err)
		}
		for _, e := range entries {
			text, err := fs.ReadFile(files, path.Join(folder, e.Name()))
			if err != nil {
				return nil, err
			}
			p.Texts = append(p.Texts, Text{e.Name(), string(text)})
		}
		all = append(all, p)
	}
	if n := len(lock.Packages) - 1; n != len(all) { // one is the project itself
		return nil, fmt.Errorf("the lock file of the chart script has %d packages, licences are known of %d: add the others to the list of package script", n, len(all))
	}
	return all, nil
}

// comment returns the notices of packages as a comment to stand before the script.
func comment(packages []Package) string {
	var b strings.Builder
	b.WriteString("/*!\nThe script below draws the charts. It is made of these packages of npm.\n")
	for _, p := range packages {
		fmt.Fprintf(&b, "\n==== %s %s (%s) ====\n", p.Name, p.Version, p.Licence)
		for _, t := range p.Texts {
			fmt.Fprintf(&b, "\n%s:\n\n%s\n", t.Name, strings.Trim(t.Text, "\r\n"))
		}
	}
	return strings.ReplaceAll(b.String(), "*/", "* /") + "*/\n"
}
