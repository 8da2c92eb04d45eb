package main

import (
	"errors"
	"fmt"

	"arrayodds/cmd/arrayodds/licences"

	cdx "github.com/CycloneDX/cyclonedx-go"
)

// page is the engine in the page of the desk.
type page struct {
	goVersion string            // of the Go that built it
	sums      map[string]string // SHA-256 of its files
}

// complete adds to a document of the linked modules what else is in the program, which
// is of that version, and the licences of all.
func complete(bom *cdx.BOM, version string, p page, all []licences.Work) error {
	if bom.Metadata == nil || bom.Metadata.Component == nil || bom.Components == nil || bom.Dependencies == nil {
		return errors.New("the document names no program, or nothing that it is made of")
	}
	program := bom.Metadata.Component
	program.Version = version
	forget(bom)
	refs := map[string]string{} // of components, by name and version
	for _, c := range *bom.Components {
		refs[c.Name+" "+c.Version] = c.BOMRef
	}
	var engine []string // what it is made of
	add := func(c cdx.Component, ref string) {
		c.BOMRef = ref
		refs[c.Name+" "+c.Version] = ref
		*bom.Components = append(*bom.Components, c)
	}
	var packages []string
	for _, w := range all {
		switch w.Kind {
		case licences.Package:
			url := "pkg:npm/" + w.Name + "@" + w.Version
			add(cdx.Component{Type: cdx.ComponentTypeLibrary, Name: w.Name, Version: w.Version, Scope: cdx.ScopeRequired, PackageURL: url,
				Description: "in the script that draws the charts"}, url)
			packages = append(packages, url)
		case licences.Module:
			if len(licences.In([]licences.Work{w}, licences.Engine)) == 0 {
				break
			}
			ref := refs[w.Name+" "+w.Version]
			if ref == "" { // linked into the engine alone
				ref = "pkg:golang/" + w.Name + "@" + w.Version
				add(cdx.Component{Type: cdx.ComponentTypeLibrary, Name: w.Name, Version: w.Version, Scope: cdx.ScopeRequired, PackageURL: ref}, ref)
			}
			engine = append(engine, ref)
		}
	}
	runtime := refs["std "+p.goVersion]
	if runtime == "" { // another Go built the program
		runtime = "pkg:golang/std@" + p.goVersion
		add(cdx.Component{Type: cdx.ComponentTypeLibrary, Name: "std", Version: p.goVersion, Scope: cdx.ScopeRequired, PackageURL: runtime}, runtime)
	}
	const engineRef, glueRef = "desk:engine.wasm.gz", "desk:wasm_exec.js"
	add(cdx.Component{Type: cdx.ComponentTypeFile, Name: "engine.wasm.gz", Version: version, Hashes: sum(p.sums["engine.wasm.gz"]),
		Description: "the engine in the page of the desk: this program and Go's runtime of " + p.goVersion + " as WebAssembly, packed"}, engineRef)
	add(cdx.Component{Type: cdx.ComponentTypeFile, Name: "wasm_exec.js", Version: p.goVersion, Hashes: sum(p.sums["wasm_exec.js"]),
		Description: "what Go's runtime needs in a page, of " + p.goVersion}, glueRef)
	engine = append(append(engine, packages...), runtime, glueRef)
	*bom.Dependencies = append(*bom.Dependencies, cdx.Dependency{Ref: engineRef, Dependencies: &engine})
	for i, d := range *bom.Dependencies {
		if d.Ref == program.BOMRef && d.Dependencies != nil {
			*d.Dependencies = append(append(*d.Dependencies, packages...), engineRef)
			(*bom.Dependencies)[i] = d
		}
	}
	return license(bom, all)
}

// forget leaves out what is of the machine: the sums of the tool that wrote the
// document, which is built anew on each.
func forget(bom *cdx.BOM) {
	bom.SerialNumber, bom.Metadata.Timestamp = "", ""
	if bom.Metadata.Tools == nil || bom.Metadata.Tools.Tools == nil {
		return
	}
	for i := range *bom.Metadata.Tools.Tools {
		(*bom.Metadata.Tools.Tools)[i].Hashes = nil
	}
}

// license gives every component its licences. The error names one without.
func license(bom *cdx.BOM, all []licences.Work) error {
	known := map[string][]string{}
	for _, w := range all {
		name := w.Name + " " + w.Version
		switch w.Kind {
		case licences.Program:
			bom.Metadata.Component.Licenses = choices(w.Licences)
			name = "engine.wasm.gz " + bom.Metadata.Component.Version
		case licences.Language:
			known["wasm_exec.js "+w.Version] = w.Licences
			name = "std " + w.Version
		}
		known[name] = w.Licences
	}
	for i := range *bom.Components {
		c := &(*bom.Components)[i]
		names := known[c.Name+" "+c.Version]
		if names == nil {
			return fmt.Errorf("no licence of %s %s is known (make licences)", c.Name, c.Version)
		}
		c.Licenses = choices(names)
	}
	return nil
}

func choices(names []string) *cdx.Licenses {
	var all cdx.Licenses
	for _, id := range names {
		all = append(all, cdx.LicenseChoice{License: &cdx.License{ID: id}})
	}
	return &all
}

func sum(sha256 string) *[]cdx.Hash {
	return &[]cdx.Hash{{Algorithm: cdx.HashAlgoSHA256, Value: sha256}}
}
