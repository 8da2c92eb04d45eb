// Command sbom completes a bill of materials of a built program, a CycloneDX document as
// cyclonedx-gomod writes it of the modules that are linked, by what a binary does not
// tell of itself: the packages of the chart script, the engine in the page of the desk
// with the Go runtime that it has, and the licence of each.
//
//	go run ./cmd/arrayodds/licences/sbom BINARY <LINKED.json >ALL.json
//
// What differs from one machine to another is left out.
package main

import (
	"crypto/sha256"
	"debug/buildinfo"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"arrayodds/cmd/arrayodds/licences"
	"arrayodds/cmd/arrayodds/version"

	cdx "github.com/CycloneDX/cyclonedx-go"
)

// built is where the engine of the desk stands.
const built = "cmd/arrayodds/desk/dist"

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "sbom: right would be sbom BINARY <LINKED.json >ALL.json")
		os.Exit(2)
	}
	if err := run(os.Args[1], os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "sbom:", err)
		os.Exit(1)
	}
}

func run(binary string, in io.Reader, out io.Writer) error {
	info, err := buildinfo.ReadFile(binary)
	if err != nil {
		return err
	}
	all, err := licences.All()
	if err != nil {
		return err
	}
	page := page{sums: map[string]string{}}
	for _, name := range []string{"engine.wasm.gz", "wasm_exec.js", "go.txt"} {
		data, err := os.ReadFile(filepath.Join(built, name))
		if err != nil {
			return fmt.Errorf("the engine of the desk is not in place (make engine builds it): %w", err)
		}
		if name == "go.txt" {
			page.goVersion = strings.TrimSpace(string(data))
			continue
		}
		sum := sha256.Sum256(data)
		page.sums[name] = hex.EncodeToString(sum[:])
	}
	var bom cdx.BOM
	if err := cdx.NewBOMDecoder(in, cdx.BOMFileFormatJSON).Decode(&bom); err != nil {
		return err
	}
	if err := complete(&bom, version.Of(info).Version, page, all); err != nil {
		return err
	}
	return cdx.NewBOMEncoder(out, cdx.BOMFileFormatJSON).SetPretty(true).SetEscapeHTML(false).Encode(&bom)
}
