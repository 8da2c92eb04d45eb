package toml

import (
	"fmt"
	"strings"
	"testing"
)

// TestBoundsOfAFile: what is nested too deep or is too much is one error at its
// place, and what stands at the bounds is read.
func TestBoundsOfAFile(t *testing.T) {
	t.Parallel()
	lists := func(depth int) string { return strings.Repeat("[", depth) + strings.Repeat("]", depth) }
	tables := func(depth int, key string) string {
		return strings.Repeat("{"+key+"=", depth) + "1" + strings.Repeat("}", depth)
	}
	key := func(parts int) string { return strings.Repeat("a.", parts-1) + "a" }
	deep := "found a value nested more than 32 deep; right would be at most 32 tables and lists one within the other"
	for _, c := range []struct{ name, text, want string }{
		{"lists at the bound", "x = " + lists(maxDepth), ""},
		{"lists", "y = 1\nx = " + lists(maxDepth+1), "s.toml:2: " + deep},
		{"lists 9 990 deep", "y = 1\nx = " + lists(9990), "s.toml:2: " + deep},
		{"lists over lines", "x = [\n" + strings.Repeat("[\n", maxDepth), "s.toml:33: " + deep},
		{"tables at the bound", "x = " + tables(maxDepth, "a"), ""},
		{"tables 9 990 deep", "x = " + tables(9990, "a"), "s.toml:1: " + deep},
		{"dotted keys in tables", "x = " + tables(9990, key(15)), "s.toml:1: " + deep},
		{"tables in a list in tables", "x = " + strings.Repeat("[{a=", 5000), "s.toml:1: " + deep},
		{"brackets in strings", "x = \"" + lists(99) + "\\\"" + lists(99) + "\"\ny = '" + lists(99) + "'\nz = \"\"\"" + lists(99) + "\n\"" + lists(99) + "\"\"\"\"\nv = '''" + lists(99) + "'''\n# " + lists(99), ""},
		{"brackets after strings", "x = \"a\\\\\"\ny = 'b\\'\nz = \"\"\"\n\\\"\"\"\"\nv = '''''''\nw = " + lists(99), "s.toml:6: " + deep},
		{"after a mistake", "x = 12 TB\ny = " + lists(99), "s.toml:1: x: found \"x = 12 TB\"; right would be in quotes: x = \"12 TB\"\ns.toml:2: " + deep},
		{"a key at the bound", key(maxKeyParts) + " = 1", ""},
		{"a key of many parts", key(10_000) + " = 1", "s.toml:1: found a key of 10000 parts; right would be at most 16"},
		{"a header of many parts", "[" + key(10_000) + "]\n", "s.toml:1: found a key of 10000 parts; right would be at most 16"},
		{"a header of too many parts", "\n[" + key(maxMarks) + "]\n", fmt.Sprintf("s.toml:2: found a value with more than %d points, commas, brackets and equals signs; right would be a value of fewer parts", maxMarks)},
		{"a list too long", "x = [" + strings.Repeat("1,", maxMarks) + "]", fmt.Sprintf("s.toml:1: found a value with more than %d points, commas, brackets and equals signs; right would be a value of fewer parts", maxMarks)},
		{"headers", strings.Repeat("[[x]]\n", maxValues+1), fmt.Sprintf("s.toml:%d: found more than %d values in the file; right would be a file of fewer", maxValues+1, maxValues)},
		{"headers at the bound", strings.Repeat("[[x]]\n", maxValues), ""},
	} {
		d, err := Parse(strings.NewReader(c.text), "s.toml")
		if err != nil {
			t.Fatal(err)
		}
		if got := d.Errs.Error(); got != c.want {
			t.Errorf("%s: %.300s\nwant %s", c.name, got, c.want)
		}
		if c.want != "" && !strings.Contains(c.want, "parts; right") && !d.Cut {
			t.Errorf("%s: nothing is cut", c.name)
		}
	}
}
