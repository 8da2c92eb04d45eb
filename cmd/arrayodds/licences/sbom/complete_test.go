package main

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"arrayodds/cmd/arrayodds/licences"

	cdx "github.com/CycloneDX/cyclonedx-go"
)

// linked is a document of a program with one module, as cyclonedx-gomod writes it.
const linked = `{
  "bomFormat": "CycloneDX", "specVersion": "1.6", "serialNumber": "urn:uuid:1", "version": 1,
  "metadata": {
    "timestamp": "2026-11-26T10:00:00Z",
    "tools": [{"name": "t", "hashes": [{"alg": "MD5", "content": "f6e4dd5c1dcf9e026dcda5ef83d9bcee"}]}],
    "component": {"bom-ref": "main", "type": "application", "name": "scales"}
  },
  "components": [
    {"bom-ref": "w", "type": "library", "name": "weights", "version": "v1.2.3"},
    {"bom-ref": "s", "type": "library", "name": "std", "version": "go1.30"}
  ],
  "dependencies": [{"ref": "main", "dependsOn": ["w", "s"]}, {"ref": "w"}, {"ref": "s"}]
}`

var works = []licences.Work{
	{Name: "scales", Kind: licences.Program, Parts: []licences.Part{licences.Binary, licences.Engine}, Licences: []string{"MIT"}},
	{Name: "Go", Version: "go1.30", Kind: licences.Language, Parts: []licences.Part{licences.Binary, licences.Engine}, Licences: []string{"BSD-3-Clause"}},
	{Name: "weights", Version: "v1.2.3", Kind: licences.Module, Parts: []licences.Part{licences.Binary, licences.Engine}, Licences: []string{"0BSD", "MIT"}},
	{Name: "pan", Version: "v0.1.0", Kind: licences.Module, Parts: []licences.Part{licences.Engine}, Licences: []string{"ISC"}},
	{Name: "beam", Version: "1.0.0", Kind: licences.Package, Parts: []licences.Part{licences.Charts}, Licences: []string{"Apache-2.0"}},
}

func decode(t *testing.T) *cdx.BOM {
	t.Helper()
	var bom cdx.BOM
	if err := cdx.NewBOMDecoder(strings.NewReader(linked), cdx.BOMFileFormatJSON).Decode(&bom); err != nil {
		t.Fatal(err)
	}
	return &bom
}

func TestComplete(t *testing.T) {
	t.Parallel()
	bom := decode(t)
	p := page{"go1.30", map[string]string{"engine.wasm.gz": "01", "wasm_exec.js": "02"}}
	if err := complete(bom, "v1.0.0", p, works); err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, c := range *bom.Components {
		var ids []string
		for _, l := range *c.Licenses {
			ids = append(ids, l.License.ID)
		}
		names = append(names, c.Name+" "+c.Version+" "+strings.Join(ids, ","))
	}
	want := []string{"weights v1.2.3 0BSD,MIT", "std go1.30 BSD-3-Clause", "pan v0.1.0 ISC", "beam 1.0.0 Apache-2.0", "engine.wasm.gz v1.0.0 MIT", "wasm_exec.js go1.30 BSD-3-Clause"}
	if !slices.Equal(names, want) {
		t.Errorf("components are %q, want %q", names, want)
	}
	for ref, want := range map[string]string{"main": "w s pkg:npm/beam@1.0.0 desk:engine.wasm.gz", "desk:engine.wasm.gz": "w pkg:golang/pan@v0.1.0 pkg:npm/beam@1.0.0 s desk:wasm_exec.js"} {
		i := slices.IndexFunc(*bom.Dependencies, func(d cdx.Dependency) bool { return d.Ref == ref })
		if i < 0 {
			t.Fatalf("nothing is said of what %s is made of", ref)
		}
		if got := strings.Join(*(*bom.Dependencies)[i].Dependencies, " "); got != want {
			t.Errorf("%s is made of %s, want %s", ref, got, want)
		}
	}
	var b bytes.Buffer
	if err := cdx.NewBOMEncoder(&b, cdx.BOMFileFormatJSON).Encode(bom); err != nil {
		t.Fatal(err)
	}
	for _, gone := range []string{"timestamp", "serialNumber", "MD5"} {
		if strings.Contains(b.String(), gone) {
			t.Errorf("the document has %s, which differs from machine to machine:\n%s", gone, b.String())
		}
	}
}

// Another Go may have built the engine, and every component must have a licence.
func TestCompleteSaysWhatLacks(t *testing.T) {
	t.Parallel()
	if err := complete(decode(t), "v1.0.0", page{goVersion: "go1.29"}, works); err == nil || !strings.Contains(err.Error(), "std go1.29") {
		t.Errorf("with an engine of another Go: %v", err)
	}
	if err := complete(decode(t), "v1.0.0", page{goVersion: "go1.30"}, slices.Delete(slices.Clone(works), 2, 3)); err == nil || !strings.Contains(err.Error(), "weights v1.2.3") {
		t.Errorf("with a module of unknown licence: %v", err)
	}
	if err := complete(&cdx.BOM{}, "v1.0.0", page{}, works); err == nil {
		t.Error("an empty document is completed")
	}
}
