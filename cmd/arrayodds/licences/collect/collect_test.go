package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/cmd/arrayodds/licences"
)

// isc is the text of the ISC licence as the SPDX License List has it, with a made-up
// holder.
const isc = `Copyright (c) 2026 somebody

Permission to use, copy, modify, and/or distribute this software for any purpose with
or without fee is hereby granted, provided that the above copyright notice and this
permission notice appear in all copies.

THE SOFTWARE IS PROVIDED "AS IS" AND THE AUTHOR DISCLAIMS ALL WARRANTIES WITH REGARD TO
THIS SOFTWARE INCLUDING ALL IMPLIED WARRANTIES OF MERCHANTABILITY AND FITNESS. IN NO
EVENT SHALL THE AUTHOR BE LIABLE FOR ANY SPECIAL, DIRECT, INDIRECT, OR CONSEQUENTIAL
DAMAGES OR ANY DAMAGES WHATSOEVER RESULTING FROM LOSS OF USE, DATA OR PROFITS, WHETHER
IN AN ACTION OF CONTRACT, NEGLIGENCE OR OTHER TORTIOUS ACTION, ARISING OUT OF OR IN
CONNECTION WITH THE USE OR PERFORMANCE OF THIS SOFTWARE.
`

// lay lays files out and returns the folder that they are in.
func lay(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func TestRead(t *testing.T) {
	t.Parallel()
	for i, c := range []struct {
		files map[string]string
		texts string // found, or a part of the error
		fails bool
	}{
		{map[string]string{"README": isc}, "has no licence that could be found", true},
		{map[string]string{"NOTICE": isc}, "has no licence that could be found", true},
		{map[string]string{"LICENSE": isc, "license.go": "package x", "NOTICE.txt": "by many"}, "LICENSE NOTICE.txt", false},
		{map[string]string{"COPYING.md": isc, "inner/LICENCE": isc, "other/LICENSE": isc, "third_party/x-LICENSE": "use it"}, "COPYING.md inner/LICENCE third_party/x-LICENSE", false},
		{map[string]string{"LICENSE": "Ask before you use it."}, "no known licence", true},
		{map[string]string{"LICENSE": isc, "inner/LICENSE": "Ask before you use it."}, "no known licence", true},
		{map[string]string{"third_party/LICENSE": "use it"}, "has no licence that could be found", true},
	} {
		if i > 1 && !thorough.Asked() {
			break // to learn the text of every licence that there is takes more than a second
		}
		dir := lay(t, c.files)
		if err := os.MkdirAll(filepath.Join(dir, "inner"), 0o755); err != nil {
			t.Fatal(err)
		}
		w, err := source{licences.Work{Name: "x", Kind: licences.Module}, []string{dir, filepath.Join(dir, "inner")}}.read()
		if c.fails {
			if err == nil || !strings.Contains(err.Error(), c.texts) {
				t.Errorf("of %v: %v, want %q", c.files, err, c.texts)
			}
			continue
		}
		var texts []string
		for _, text := range w.Texts {
			texts = append(texts, text.File)
		}
		if got := strings.Join(texts, " "); err != nil || got != c.texts || strings.Join(w.Licences, " ") != "ISC" {
			t.Errorf("of %v are found %s under %v, %v; want %s under ISC", c.files, got, w.Licences, err, c.texts)
		}
	}
}
