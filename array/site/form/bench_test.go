package form

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"arrayodds/array/site/axis"
)

// many is a file of 200 choices.
func many(b *testing.B) []byte {
	text, err := os.ReadFile("../../../testdata/saltmarsh.toml")
	if err != nil {
		b.Fatal(err)
	}
	var more strings.Builder
	for i := range 192 {
		fmt.Fprintf(&more, "\n[[choices]]\nlabel = \"More %d\"\ndrive = \"18 TB\"\nlayout = \"RAID 6\"\ndrives = 7\n", i)
	}
	return []byte(string(text) + more.String())
}

// BenchmarkRead: 3 ms at most for the demo on an idle core.
func BenchmarkRead(b *testing.B) {
	demo, err := os.ReadFile("../../../testdata/saltmarsh.toml")
	if err != nil {
		b.Fatal(err)
	}
	for name, text := range map[string][]byte{"demo": demo, "200 choices": many(b)} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				Read(text, "s.toml")
			}
		})
		b.Run(name+", file alone", func(b *testing.B) {
			for b.Loop() {
				axis.Open(strings.NewReader(string(text)), "s.toml")
			}
		})
		b.Run(name+", one key set", func(b *testing.B) {
			for b.Loop() {
				if _, err := Edit(text, Change{Set, "care.response", "8 h"}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
