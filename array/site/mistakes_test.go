package site

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/array/toml"
)

// mistakes are values that a key does not take, by what is wrong with them.
func mistakes(k Key) map[string]string {
	text := func(s string) string { return fmt.Sprintf("%q", s) }
	all := map[string]string{
		"an empty list": `[]`, "a list": `["x"]`, "a date": `2026-01-01`, "true": `true`, "empty": `""`, "blank": `"  "`,
		"a control character": `"a\u0007b"`, "a long text": text(strings.Repeat("x", 300)), "a number": `7.5`, "a negative number": `-3`,
		"NaN": `nan`, "infinite": `-inf`, "a huge number": `1e400`, "a huge whole number": `99999999999999999999`,
		"a word": `"quite"`, "a list in a list": `[[1]]`,
		"half a range": `{ low = 1, likely = 2 }`,
	}
	if k.Min != "" && k.Kind != toml.List {
		quote := func(s string) string { return s }
		if k.Quantity.Name != "" {
			quote = text
			all["another unit"] = text("5 parsecs")
			all["no unit"] = text("5")
			all["not a number with a unit"] = text("nan " + k.Quantity.Units[0])
			all["infinite with a unit"] = text("inf " + k.Quantity.Units[0])
			all["negative with a unit"] = text("-1 " + k.Quantity.Units[0])
		}
		all["too large"] = quote(beyond(k, k.Max, 1))
		all["a range reversed"] = fmt.Sprintf("{ low = %[2]s, likely = %[2]s, high = %[1]s }", quote(k.Min), quote(k.Max))
		all["a range of a word"] = fmt.Sprintf(`{ low = "a", likely = %[1]s, high = %[1]s }`, quote(k.Max))
		all["a range too far"] = fmt.Sprintf("{ low = %[1]s, likely = %[1]s, high = %[2]s }", quote(k.Max), quote(beyond(k, k.Max, 1)))
		all["a range of nothing"] = fmt.Sprintf("{ low = %[1]s, likely = %[1]s, high = %[1]s }", quote(k.Max))
	}
	return all
}

// TestOneMistakeIsOneError: of every key, each of the values that it does not take is
// one error, which stands at the key or in it, and no other.
func TestOneMistakeIsOneError(t *testing.T) {
	t.Parallel()
	tried, stride := 0, thorough.Count(10, 30) // all of them take a minute and a half
	for i, k := range Keys() {
		number := sampleOf(t, k)
		wrong := mistakes(k)
		if k.Path == "drives.label" {
			delete(wrong, "a word") // which the choice does not know
		}
		for j, what := range slices.Sorted(maps.Keys(wrong)) {
			if (i+j)%stride > 0 {
				continue
			}
			value := wrong[what]
			text := sampleFile(number, instead{k.Path, value})
			_, err := Read(strings.NewReader(text), "s.toml", Beside(logos))
			var errs Errors
			if err == nil {
				continue // it takes that
			}
			if tried++; !errors.As(err, &errs) || len(errs) != 1 {
				t.Errorf("%s = %.60s, %s:\n%v", k.Path, value, what, err)
				continue
			}
			if e := errs[0]; e.Line < 1 || e.Key != "" && !names(e.Key, k) {
				t.Errorf("%s = %.60s, %s: the error stands elsewhere: %v", k.Path, value, what, e)
			}
		}
	}
	if tried < 100 {
		t.Errorf("only %d mistakes", tried)
	}
}

// sampleOf is the number of a sample in which a key stands.
func sampleOf(t *testing.T, k Key) int {
	t.Helper()
	all, err := samples()
	if err != nil {
		t.Fatal(err)
	}
	number := slices.IndexFunc(all, func(d *Document) bool { return d.Root.Find(stepsTo(k)) != nil })
	if number < 0 {
		t.Fatalf("%s stands in no sample", k.Path)
	}
	return number
}

// names reports whether a place that an error names is of the key, of what is in it,
// or of the table that it is in.
func names(place string, k Key) bool {
	parts := strings.Split(k.Path, ".")
	at := 0
	for _, p := range parts {
		i := strings.Index(place[at:], p)
		if i < 0 {
			return p == parts[len(parts)-1] // the table
		}
		at += i + len(p)
	}
	return true
}
