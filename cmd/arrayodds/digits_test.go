package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"arrayodds/array/thorough"
)

// One seed gives the same bytes of JSON whatever the processor can do, and in
// WebAssembly: natively, without fused multiplication and wide vectors, and, where
// ARRAYODDS_WASM says how to run the program built for js/wasm, under Node.js (make
// digits does). On arm64 products may be fused: there only the last is compared.
func TestSameDigitsEverywhere(t *testing.T) {
	t.Parallel()
	sites := []string{"../../testdata/saltmarsh.toml"}
	if !thorough.Asked() && os.Getenv("ARRAYODDS_WASM") == "" {
		sites = []string{"testdata/parts/hut.toml"} // a smaller one
	}
	for _, site := range sites {
		path, err := filepath.Abs(site)
		if err != nil {
			t.Fatal(err)
		}
		json := func(env string, program ...string) []byte {
			c := exec.Command(program[0], append(program[1:], "compare", path, "--json", "-", "--html", "page.html", "--accuracy", "10 %")...)
			c.Dir = t.TempDir()
			c.Env = append(os.Environ(), env)
			var out, said bytes.Buffer
			c.Stdout, c.Stderr = &out, &said
			if err := c.Run(); err != nil {
				t.Fatalf("%v: %v\n%s", program, err, said.String())
			}
			return out.Bytes()
		}
		want := json("", "arrayodds")
		if runtime.GOARCH == "amd64" {
			if got := json("GODEBUG=cpu.fma=off,cpu.avx2=off,cpu.avx=off", "arrayodds"); !bytes.Equal(got, want) {
				t.Errorf("%s: other digits on a processor that fuses nothing", site)
			}
		}
		if wasm := strings.Fields(os.Getenv("ARRAYODDS_WASM")); len(wasm) > 0 {
			if got := json("", wasm...); !bytes.Equal(got, want) {
				t.Errorf("%s: other digits in WebAssembly", site)
			}
		}
	}
}
