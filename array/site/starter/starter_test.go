package starter

import (
	"bytes"
	"image"
	"image/png"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"arrayodds/array/site"
	"arrayodds/array/toml"
)

// setting is a line that sets a key, be it on or off.
type setting struct {
	line, path string
	off        bool
}

var (
	header  = regexp.MustCompile(`^\[\[?([a-z_.]+)\]\]?$`)
	setLine = regexp.MustCompile(`^(#?)([a-z_]+) = `)
	leftOut = regexp.MustCompile(`left out: (.+)$`)
	orElse  = regexp.MustCompile(`# or ("[^"]+"(?:,(?: or)? "[^"]+")*)`)
)

// settings lists the settings of the file with the paths of their keys.
func settings() (all []setting) {
	table := ""
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		if m := header.FindStringSubmatch(line); m != nil {
			table = m[1] + "."
		} else if m := setLine.FindStringSubmatch(line); m != nil {
			all = append(all, setting{line, table + m[2], m[1] == "#"})
		}
	}
	return all
}

// read reads a file with a logo beside it.
func read(t *testing.T, in string) *site.File {
	t.Helper()
	var logo bytes.Buffer
	if err := png.Encode(&logo, image.NewGray(image.Rect(0, 0, 8, 8))); err != nil {
		t.Fatal(err)
	}
	f, err := site.Read(strings.NewReader(in), "starter.toml", site.Beside(fstest.MapFS{"logo.png": {Data: logo.Bytes()}}))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestStarterIsRight: the file is read as it is, and with each setting that is off
// turned on, and with all of them.
func TestStarterIsRight(t *testing.T) {
	t.Parallel()
	f := read(t, Text())
	if len(f.Site.Choices) != 3 || f.Site.Goal == nil || f.Recorder == nil || f.Site.Currency == "" {
		t.Errorf("the file lacks something: %+v", f.Site)
	}
	for _, c := range f.Site.Choices {
		if s, err := f.Site.Size(c); err != nil || !s.Meets {
			t.Errorf("%s does not hold the footage: %v", c.Label, err)
		}
	}
	whole, off := Text(), 0
	for _, s := range settings() {
		if !s.off {
			continue
		}
		off++
		read(t, strings.Replace(Text(), s.line, s.line[1:], 1))
		whole = strings.Replace(whole, s.line, s.line[1:], 1)
	}
	if off < 15 {
		t.Errorf("%d settings are off", off)
	}
	read(t, whole)
}

// TestStarterKeys: every key that the file names exists, and what it says holds where
// one is left out does, by the table of keys. Each default of a key that it names is
// told.
func TestStarterKeys(t *testing.T) {
	t.Parallel()
	told, has := map[string]bool{}, map[string]string{}
	for _, s := range settings() {
		k := site.Lookup(s.path)
		if k == nil {
			t.Errorf("there is no key %s: %q", s.path, s.line)
			continue
		}
		if k.Default != "" && k.Kind != toml.YesNo {
			has[s.path] = k.Default
		}
		if m := leftOut.FindStringSubmatch(s.line); m != nil {
			told[s.path] = true
			if m[1] != k.Default {
				t.Errorf("%s: left out it is %q, and the file says %q", s.path, k.Default, m[1])
			}
		}
	}
	for path, value := range has {
		if !told[path] {
			t.Errorf("the file does not say that %s is %q where it is left out", path, value)
		}
	}
	// The keys that a beginner needs. Common practice, no source.
	for _, path := range []string{"name", "service_life", "currency", "cameras.count", "cameras.bitrate", "cameras.retention", "cameras.hours_per_day", "cameras.activity",
		"drives.capacity", "drives.life", "drives.transfer", "drives.read_error", "drives.price", "choices.drive", "choices.layout", "choices.drives", "choices.hot_spares",
		"care.notice", "care.response", "care.scrub", "hazards.common_cause", "recorder.price", "recorder.bays", "recorder.power", "recorder.mains",
		"goal.loss_chance", "options.per_year", "options.set", "document.customer", "document.prepared_by"} {
		if !strings.Contains(allPaths(), " "+path+" ") {
			t.Errorf("the file has no %s", path)
		}
	}
}

func allPaths() string {
	all := " "
	for _, s := range settings() {
		all += s.path + " "
	}
	return all
}

// TestStarterAlternatives: what the file says may stand there instead may.
func TestStarterAlternatives(t *testing.T) {
	t.Parallel()
	tried := 0
	for _, s := range settings() {
		m := orElse.FindStringSubmatch(s.line)
		if m == nil {
			continue
		}
		for _, other := range regexp.MustCompile(`"[^"]+"`).FindAllString(m[1], -1) {
			tried++
			value := regexp.MustCompile(`= "[^"]+"`)
			read(t, strings.Replace(Text(), s.line, value.ReplaceAllLiteralString(s.line, "= "+other), 1))
		}
	}
	if tried < 5 {
		t.Errorf("%d tried", tried)
	}
}

// TestStarterIsReadable: it fits a terminal, and its questions stand in it.
func TestStarterIsReadable(t *testing.T) {
	t.Parallel()
	for line := range strings.Lines(Text()) {
		if n := utf8.RuneCountInString(line); n > 100 || strings.TrimRight(line, " \n") != strings.TrimRight(line, "\n") {
			t.Errorf("%d characters: %q", n, line)
		}
	}
	for _, says := range []string{"Local law decides", "invented", "put your own figures", "datasheet", "arrayodds help site"} {
		if !strings.Contains(Text(), says) {
			t.Errorf("the file does not say %q", says)
		}
	}
	if n := strings.Count(strings.ToLower(Text()), "# ask"); n < 8 {
		t.Errorf("%d questions are asked", n)
	}
}

// TestSites: each site is read without error, some of its choices hold the footage, and
// there is a goal to hold them against; no two are called alike.
func TestSites(t *testing.T) {
	t.Parallel()
	names := map[string]bool{}
	for _, s := range Sites() {
		f := read(t, s.Text)
		holds := 0
		for _, c := range f.Site.Choices {
			if z, err := f.Site.Size(c); err != nil {
				t.Errorf("%s: %s: %v", s.Name, c.Label, err)
			} else if z.Meets {
				holds++
			}
		}
		if holds < 2 || f.Site.Goal == nil || f.Recorder == nil || f.Site.Currency == "" {
			t.Errorf("%s: %d choices hold the footage, and it has %+v", s.Name, holds, f.Site.Goal)
		}
		if names[s.Name] || s.Title == "" || !strings.HasSuffix(s.Says, ".") || !strings.Contains(s.Text, "invented") {
			t.Errorf("%s: %q, %q", s.Name, s.Title, s.Says)
		}
		names[s.Name] = true
		for line := range strings.Lines(s.Text) {
			if n := utf8.RuneCountInString(line); n > 110 || strings.TrimRight(line, " \n") != strings.TrimRight(line, "\n") {
				t.Errorf("%s: %d characters: %q", s.Name, n, line)
			}
		}
	}
	if len(names) < 4 {
		t.Errorf("%d sites", len(names))
	}
}
