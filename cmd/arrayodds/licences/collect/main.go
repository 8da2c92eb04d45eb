// Command collect collects the licences of all that will be in the program, for the
// systems that it is built for, and writes them to a file that package licences reads.
//
//	go run ./cmd/arrayodds/licences/collect FILE SYSTEM/PROCESSOR...
//
// A work without a licence, or with a text that is no known licence, is an error.
package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime"

	"arrayodds/charts/script"
	"arrayodds/cmd/arrayodds/licences"
)

func main() {
	if len(os.Args) < 3 {
		fmt.Fprintln(os.Stderr, "collect: right would be collect FILE SYSTEM/PROCESSOR...")
		os.Exit(2)
	}
	if err := run(os.Args[1], os.Args[2:]); err != nil {
		fmt.Fprintln(os.Stderr, "collect:", err)
		os.Exit(1)
	}
}

func run(path string, systems []string) error {
	all, err := collect(systems)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := licences.Pack(&b, all); err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, b.Bytes(), 0o644)
}

// collect returns all works: the program, Go, its modules, the packages of the chart
// script.
func collect(systems []string) ([]licences.Work, error) {
	modules, err := linked(systems)
	if err != nil {
		return nil, err
	}
	packages, err := script.Packages()
	if err != nil {
		return nil, err
	}
	root, err := goEnv("GOMOD")
	if err != nil {
		return nil, err
	}
	goroot, err := goEnv("GOROOT")
	if err != nil {
		return nil, err
	}
	folders := []source{
		{licences.Work{Name: "arrayodds", Kind: licences.Program, Parts: []licences.Part{licences.Binary, licences.Engine}}, []string{filepath.Dir(root)}},
		{licences.Work{Name: "Go", Version: runtime.Version(), Kind: licences.Language, Parts: []licences.Part{licences.Binary, licences.Engine}}, []string{goroot}},
	}
	var all []licences.Work
	for _, s := range append(folders, modules...) {
		w, err := s.read()
		if err != nil {
			return nil, err
		}
		all = append(all, w)
	}
	for _, p := range packages {
		w := licences.Work{Name: p.Name, Version: p.Version, Kind: licences.Package, Parts: []licences.Part{licences.Charts}, Licences: []string{p.Licence}}
		for _, t := range p.Texts {
			w.Texts = append(w.Texts, licences.Text{File: t.Name, Text: t.Text})
		}
		if err := complete(w); err != nil {
			return nil, err
		}
		all = append(all, w)
	}
	return all, nil
}
