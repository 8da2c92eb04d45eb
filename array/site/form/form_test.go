package form

import (
	"encoding/json"
	"fmt"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"arrayodds/array/site"
	"arrayodds/array/site/starter"
	"arrayodds/array/toml"
)

func read(t *testing.T, name string) []byte {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// TestEveryKeyHasAField: each key of the table of keys is a field or a section of some
// form, each form of a law being chosen once.
func TestEveryKeyHasAField(t *testing.T) {
	t.Parallel()
	reached := map[string]bool{}
	look := func(f Form) (fields []Field) {
		for _, s := range f.Sections {
			reached[s.Path] = true
			for _, i := range s.Items {
				for _, own := range i.Sections {
					reached[keyPathOf(own.Path)] = true
				}
			}
		}
		every(f, func(f Field) {
			fields = append(fields, f)
			k := keyPathOf(f.Path)
			reached[k] = true
			if len(f.Forms) > 0 && f.Form != nil && len(f.Fields) > 0 { // of one key, whose table it is
				way, _ := steps(f.Fields[0].Path)
				for n := range way {
					reached[keyPath(way[:n])] = true
				}
			}
		})
		return fields
	}
	text := read(t, "../testdata/everything.toml")
	for _, f := range look(readForm(t, text)) {
		for _, way := range f.Forms {
			after, err := Edit(text, Change{Set, f.Path, way.Text})
			if err != nil {
				t.Fatal(err)
			}
			form := readForm(t, after)
			got := at(form, f.Path)
			if got == nil || got.Form == nil || f.Forms[*got.Form].Name != way.Name || got.Error != "" {
				t.Errorf("%s as %s is %+v", f.Path, way.Name, got)
			}
			look(form)
		}
	}
	for _, k := range site.Keys() {
		if !reached[k.Path] {
			t.Errorf("%s is in no form", k.Path)
		}
	}
}

// TestFields: what some fields of the demo say, by hand.
func TestFields(t *testing.T) {
	t.Parallel()
	text := read(t, "../../../testdata/saltmarsh.toml")
	f, lines := readForm(t, text), strings.Split(string(text), "\n")
	number := func(v float64) *float64 { return &v }
	for _, want := range []Field{
		{Path: "service_life", Name: "service_life", Label: "Service life", Kind: Quantity, Unit: "y", Text: "5 y", Given: true, Required: true, Number: number(5 * 8760), Low: number(24), High: number(50 * 8760)},
		{Path: "growth", Name: "growth", Label: "Growth", Kind: Share, Default: "0", Number: number(0), Low: number(0), High: number(10)},
		{Path: "cameras.0.bitrate", Name: "bitrate", Label: "Bit rate", Kind: Quantity, Unit: "Mbit/s", Text: "6 Mbit/s", Given: true, Required: true, Number: number(6e6), Low: number(1000), High: number(1e10)},
		{Path: "cameras.2.hours_per_day", Name: "hours_per_day", Label: "Hours per day", Kind: Number, Default: "24", Number: number(24), Low: number(0.01), High: number(24)},
		{Path: "cameras.0.codec", Name: "codec", Label: "Codec", Kind: Word, Words: []string{"H.264", "H.265", "AV1", "MJPEG"}, Excluded: "not used beside bit rate"},
		{Path: "drives.0.hazard_multiplier", Name: "hazard_multiplier", Label: "Hazard multiplier", Kind: Number, Text: "{ low = 1, likely = 1.5, high = 3 }", Given: true, Default: "1",
			Range: &Range{"1", "1.5", "3"}, Number: number(1.5), Low: number(0.001), High: number(1000)},
		{Path: "choices.6.drive", Name: "drive", Label: "Drive", Kind: Word, Text: "12 TB", Given: true, Required: true, Words: []string{"8 TB", "12 TB", "18 TB"}},
		{Path: "choices.6.care.rebuild_share", Name: "rebuild_share", Label: "Rebuild share", Kind: Share, Default: "0.4", Number: number(0.4), Low: number(0.001), High: number(1)},
		{Path: "choices.6.recorder.bays", Name: "bays", Label: "Bays", Kind: Integer, Text: "12", Given: true, Default: "8", Number: number(12), Low: number(1), High: number(10000)},
		{Path: "care.rebuilds", Name: "rebuilds", Label: "Rebuilds", Kind: Word, Text: "serial", Given: true, Default: "serial", Words: []string{"serial", "parallel"}},
		{Path: "care.controller_limit", Name: "controller_limit", Label: "Controller limit", Kind: Quantity, Unit: "MB/s", Text: "400 MB/s", Given: true, Default: "none", Words: []string{"none"}, Number: number(4e8), Low: number(1e6), High: number(1e12)},
		{Path: "recorder.power.redundant", Name: "redundant", Label: "Redundant", Kind: Bool, Text: "false", Given: true, Default: "false"},
		{Path: "recorder.mains.ups_bridges", Name: "ups_bridges", Label: "UPS bridges", Kind: Quantity, Unit: "min", Text: "30 min", Given: true, Default: "0 h", Number: number(0.5), Low: number(0), High: number(8760)},
		{Path: "recorder.swap", Name: "swap", Label: "Swap", Kind: Table, Text: "hot", Given: true, Default: "hot", Words: []string{"hot"},
			Forms: []Way{{Name: "given", Title: "Given", Text: `{ powered_down = "48 h" }`}}},
		{Path: "goal.loss_chance", Name: "loss_chance", Label: "Loss chance", Kind: Share, Text: "1 in 1 000", Given: true, Required: true, Number: number(0.001), Low: number(1e-15), High: number(0.999)},
		{Path: "document.valid_until", Name: "valid_until", Label: "Valid until", Kind: Date, Text: "2027-03-31", Given: true},
		{Path: "options.0.excludes", Name: "excludes", Label: "Excludes", Kind: List},
	} {
		got := at(f, want.Path)
		if got == nil {
			t.Errorf("there is no %s", want.Path)
			continue
		}
		if numeric := got.Number != nil || got.Low != nil; got.MayRange != (numeric && !strings.HasPrefix(want.Path, "goal.")) {
			t.Errorf("%s may be a range: %v", want.Path, got.MayRange)
		}
		got.MayRange = false
		if k := site.Lookup(keyPathOf(want.Path)); got.Doc != k.Doc || !strings.EqualFold(got.Takes, site.Takes(*k)) || !slices.Equal(got.Units, k.Quantity.Units) {
			t.Errorf("%s: %q, %q, %q", want.Path, got.Doc, got.Takes, got.Units)
		}
		if got.Given && !strings.Contains(lines[got.Line-1], got.Name) {
			t.Errorf("%s is said to stand at line %d, where there is %q", want.Path, got.Line, lines[got.Line-1])
		}
		got.Doc, got.Takes, got.Units, got.Absent, got.Line = "", "", nil, "", 0
		for i := range got.Forms {
			got.Forms[i].Doc = ""
		}
		if !reflect.DeepEqual(*got, want) {
			g, _ := json.Marshal(got)
			w, _ := json.Marshal(want)
			t.Errorf("%s is\n%s\nwant\n%s", want.Path, g, w)
		}
	}
	response := at(f, "care.response")
	var ways []string
	for _, w := range response.Forms {
		ways = append(ways, w.Name+": "+w.Title)
	}
	if fmt.Sprint(ways) != "[fixed: Fixed time exponential: Exponential weibull: Weibull lognormal: Lognormal within: Within and hours]" || *response.Form != 3 || len(response.Fields) != 2 || response.Fields[1].Path != "care.response.lognormal.p90" {
		t.Errorf("%q, %d, %+v", ways, *response.Form, response.Fields)
	}
}

// TestDefaultsThatAreWorkedOut: what has no label is numbered, and a bit rate that is not
// given is estimated.
func TestDefaultsThatAreWorkedOut(t *testing.T) {
	t.Parallel()
	f := readForm(t, read(t, "../testdata/everything.toml"))
	if label := at(f, "cameras.1.label"); label.Given || label.Default != "Cameras 2" || f.Sections[1].Items[1].Label != "Cameras 2" {
		t.Errorf("%+v", label)
	}
	// 1920 × 1080 pixels × 12.5 a second × 0.05 bits of HEVC, 1.296 Mbit/s.
	rate := at(f, "cameras.2.bitrate")
	if rate.Given || rate.Required || !strings.HasPrefix(rate.Absent, "an estimate: 1.3 Mbit/s") {
		t.Errorf("%+v", rate)
	}
	if w := at(f, "sizing.customary_width.raid-0"); w == nil || w.Name != "RAID 0" || w.Text != "9" {
		t.Errorf("%+v", w)
	}
}

// TestErrorsAtTheirFields: of a file with everything wrong every error stands at a
// field, an item or a section, in the command's words.
func TestErrorsAtTheirFields(t *testing.T) {
	t.Parallel()
	f, source, errs := Read(read(t, "../testdata/many-errors.toml"), "many-errors.toml")
	if source != nil || len(errs) == 0 || len(f.Errors) > 0 {
		t.Fatalf("%v, and apart %v", errs, f.Errors)
	}
	var said []string
	take := func(s string) {
		if s != "" {
			said = append(said, strings.Split(s, "\n")...)
		}
	}
	every(f, func(f Field) { take(f.Error) })
	for _, s := range f.Sections {
		take(s.Error)
		for _, i := range s.Items {
			take(i.Error)
			for _, own := range i.Sections {
				take(own.Error)
			}
		}
	}
	if len(said) != len(errs) {
		t.Errorf("%d errors are said of %d", len(said), len(errs))
	}
	for _, e := range errs {
		if !slices.ContainsFunc(said, func(s string) bool { return strings.HasSuffix(s, e.Said()) }) {
			t.Errorf("nowhere: %v", e)
		}
	}
	for path, want := range map[string]string{
		"cameras.bitrate":                 `found "6 MB/s", with the unit "MB/s"; right would be bits a second: kbit/s, Mbit/s or Gbit/s (did you mean "48 Mbit/s"?)`,
		"drives.0.capacity":               `found "capacity = 12 TB   # no quotes"; right would be in quotes: capacity = "12 TB"`,
		"drives.1.label":                  "found the label of line 10 again; right would be a label of its own",
		"drives.0.batch_varience":         "",
		"nmae":                            "",
		"choices.2.care.scrub.exponental": "",
	} {
		if got := at(f, path); got == nil || got.Error == "" || want != "" && got.Error != want {
			t.Errorf("%s: %+v", path, got)
		}
	}
}

// TestWrongTOML: of a file that cannot be read to its end there is what could be, and
// the error.
func TestWrongTOML(t *testing.T) {
	t.Parallel()
	f, source, errs := Read([]byte("name = \"A\"\nservice_life = 5 y\n[[cameras]\ncount = 1\n"), "s.toml")
	if source != nil || len(errs) != 2 || f.Cut != 3 || len(f.Errors) != 1 || f.Errors[0].Line != 3 {
		t.Errorf("%v %+v", errs, f.Errors)
	}
	if name, life := at(f, "name"), at(f, "service_life"); name.Text != "A" || life.Text != "5 y" || life.Error == "" {
		t.Errorf("%+v %+v", name, life)
	}
	mended, err := Edit([]byte("name = \"A\"\nservice_life = 5 y # so long\ngrowth: 1\n"), Change{Set, "service_life", "5 y"})
	if err != nil || string(mended) != "name = \"A\"\nservice_life = \"5 y\" # so long\ngrowth: 1\n" {
		t.Errorf("%v %q", err, mended)
	}
	if mended, err = Edit(mended, Change{Set, "growth", "10 %"}); err != nil || !strings.HasSuffix(string(mended), "\ngrowth = \"10 %\"\n") {
		t.Errorf("%v %q", err, mended)
	}
	for _, text := range []string{"", "x", strings.Repeat("a = [", 100), strings.Repeat(" ", toml.MaxBytes+1)} {
		f, _, errs := Read([]byte(text), "s.toml")
		if len(errs) == 0 || len(f.Sections) == 0 {
			t.Errorf("%.20q: %v, %d sections", text, errs, len(f.Sections))
		}
	}
}

// TestManyOfThem: of more items and unknown keys than a file may have some are shown, and
// the error says how many there are.
func TestManyOfThem(t *testing.T) {
	t.Parallel()
	text := before + strings.Repeat("[[choices]]\n", 300) + "[run]\n"
	for i := range 300 {
		text += fmt.Sprintf("k%d = 1\n", i)
	}
	f, _, errs := Read([]byte(text), "s.toml")
	for _, s := range f.Sections {
		switch s.Path {
		case "choices":
			if len(s.Items) != s.Most || !strings.HasPrefix(s.Error, "found 302 of them") {
				t.Errorf("%d choices: %q", len(s.Items), s.Error)
			}
		case "run":
			if n := len(s.Items[0].Fields); n != 3+maxUnknown {
				t.Errorf("%d fields", n)
			}
		}
	}
	if len(errs) < 200 {
		t.Errorf("%d errors", len(errs))
	}
}

// TestSchedule: cameras in a schedule are its path, and what is wrong in it is said there.
func TestSchedule(t *testing.T) {
	t.Parallel()
	text := []byte(strings.Replace(before, before[index("# The yard."):index("# Models.")], "", 1))
	text, err := Edit(text, Change{Set, "cameras", "s.csv"})
	if err != nil {
		t.Fatal(err)
	}
	beside := func(csv string) site.Option { return site.Beside(fstest.MapFS{"s.csv": {Data: []byte(csv)}}) }
	f, source, errs := Read(text, "s.toml", beside("label,count,bitrate,retention\nA,1,6 Mbit/s,30 d\n"))
	if s := f.Sections[1]; source == nil || len(source.File().Site.Cameras) != 1 || s.Source.Text != "s.csv" || !s.Source.Given || len(s.Items) > 0 {
		t.Errorf("%v %+v", errs, s)
	}
	f, _, _ = Read(text, "s.toml", beside("label,count,bitrate,retention\nA,none,6 Mbit/s,30 d\n"))
	if e := f.Sections[1].Source.Error; !strings.HasPrefix(e, "s.csv, cell B2: A.count: found") {
		t.Errorf("%q, apart %v", e, f.Errors)
	}
	f, _, _ = Read([]byte(before), "s.toml")
	if s := f.Sections[1]; s.Source.Given || s.Source.Excluded == "" || len(s.Items) != 1 {
		t.Errorf("%+v", s)
	}
}

// TestPaths: a path of a form is read as it is written.
func TestPaths(t *testing.T) {
	t.Parallel()
	for _, text := range texts(t) {
		every(readForm(t, []byte(text)), func(f Field) {
			way, err := steps(f.Path)
			if err != nil {
				t.Error(err)
			}
			again := ""
			for _, s := range way {
				again = pathOf(again, s)
			}
			if again != f.Path {
				t.Errorf("%s is read as %s", f.Path, again)
			}
		})
	}
	for _, wrong := range []string{".", "a.", ".a", "a..b", `"a`, `"a"b`, strings.Repeat("a.", 100) + "a"} {
		if way, err := steps(wrong); err == nil {
			t.Errorf("%q is read as %v", wrong, way)
		}
	}
}

// TestLabels: names of keys as labels.
func TestLabels(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]string{"hours_per_day": "Hours per day", "afr": "AFR", "afr_by_year": "AFR by year", "ups_bridges": "UPS bridges", "p90": "P90", "bitrate": "Bit rate", "RAID 5": "RAID 5", "": ""} {
		if got := labelOf(name); got != want {
			t.Errorf("%s is %s", name, got)
		}
	}
}

// TestStarters: each reads without error, and its form too.
func TestStarters(t *testing.T) {
	t.Parallel()
	for _, s := range starter.Sites() {
		readForm(t, []byte(s.Text))
	}
}
