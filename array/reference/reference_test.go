package reference

import (
	"strings"
	"testing"
	"unicode/utf8"

	"arrayodds/array/site"
	"arrayodds/array/state"
)

// TestSite: every key and form stands in the reference with its sentence and
// bounds, where it belongs, and no line is too long for a terminal.
func TestSite(t *testing.T) {
	t.Parallel()
	all := Site()
	for _, line := range strings.Split(all, "\n") {
		if n := utf8.RuneCountInString(line); n > width || strings.TrimRight(line, " ") != line || strings.Contains(line, unbroken) {
			t.Errorf("%d characters: %q", n, line)
		}
	}
	flat := strings.Join(strings.Fields(all), " ")
	for _, k := range site.Keys() {
		if k.Inherits != "" && k.Path != "choices."+k.Inherits { // told of the site's
			continue
		}
		if said := strings.Join(strings.Fields(inFile(k)+" "+k.Doc), " "); !strings.Contains(strings.NewReplacer("[", "", "]", "").Replace(flat), said) {
			t.Errorf("%s is not described: %q", k.Path, said)
		}
		if limits := k.Limits(); !strings.Contains(flat, limits) {
			t.Errorf("%s: %s is not said", k.Path, limits)
		}
		for _, f := range k.Forms {
			if !strings.Contains(all, f.Example+"\n") {
				t.Errorf("%s: %s is not shown", k.Path, f.Example)
			}
		}
	}
	rest := all
	for _, part := range []string{"\nservice_life ", "\n[[cameras]] ", "\nretention ", "\n[[drives]] ", "\n  { mtbf = ", "\n    mtbf ", "\ntransfer ",
		"\n[[choices]] ", "\n[choices.care] ", "\n[care] ", "\nscrub ", "\n[hazards] ", "\n  per_year ", "\n[recorder] ", "\n[run] ", "\n{ exponential = ", "\n    p90 "} {
		at := strings.Index(rest, part)
		if at < 0 {
			t.Fatalf("%q does not follow", part)
		}
		rest = rest[at:]
	}
}

// TestState: every key of a state file stands there with its sentence and bounds.
func TestState(t *testing.T) {
	t.Parallel()
	flat := strings.Join(strings.Fields(State()), " ")
	for _, k := range state.Keys() {
		for _, said := range []string{k.Name(), k.Doc, k.Limits()} {
			if !strings.Contains(flat, strings.Join(strings.Fields(said), " ")) {
				t.Errorf("of %s it does not say %q", k.Path, said)
			}
		}
	}
}

// TestSiteKey: every key is told by its path and, with its namesakes, by its name.
func TestSiteKey(t *testing.T) {
	t.Parallel()
	for _, k := range site.Keys() {
		told := k
		if k.Inherits != "" {
			told = *site.Lookup(k.Inherits)
		}
		for _, written := range []string{k.Path, told.Name()} {
			if got := strings.Join(strings.Fields(SiteKey(written)), " "); !strings.Contains(got, strings.Join(strings.Fields(told.Doc), " ")) {
				t.Errorf("of %s it says %q", written, got)
			}
		}
	}
	for written, want := range map[string]string{
		"power":                 "drives.power\n",
		"recorder.power":        "\n  redundant ",
		"care.response":         "\n      p90 ",
		"choices.care.response": "of one choice, in place of the site's:\ncare.response\n",
		"recorder":              "\nbays ",
	} {
		if got := SiteKey(written); !strings.Contains(got, want) {
			t.Errorf("of %s it says %q", written, got)
		}
	}
	for _, written := range []string{"", "care.", ".", "care.nothing", "nothing"} {
		if got := SiteKey(written); got != "" {
			t.Errorf("of %q it says %q", written, got)
		}
	}
}
