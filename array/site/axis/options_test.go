package axis

import (
	"reflect"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
)

// What a source writes of itself is read back as the same file, but for places.
func TestTextIsReadBack(t *testing.T) {
	t.Parallel()
	for _, s := range []*Source{openedFile(t, demo), openedFile(t, "../testdata/everything.toml"), opened(t, ranged)} {
		back := opened(t, s.Text())
		was, now := *s.File(), *back.File()
		for _, f := range []*site.File{&was, &now} {
			f.Site.Options = nil // which have lines
		}
		if !same(&was, &now) {
			t.Errorf("written\n%s", s.Text())
		}
		if len(back.doc.Ranges) != len(s.doc.Ranges) {
			t.Errorf("%d ranges of %d", len(back.doc.Ranges), len(s.doc.Ranges))
		}
	}
}

// With other choices a source is the file as if it had the values for its own: its inputs go from
// there, and what was set has no range any more.
func TestWithChoices(t *testing.T) {
	t.Parallel()
	s := opened(t, strings.Replace(small, "[[choices]]", "[[options]]\nlabel = \"fast\"\nset = { \"care.response\" = \"8 h\" }\n[[choices]]", 1)+"[care]\nresponse = { low = \"12 h\", likely = \"24 h\", high = \"96 h\" }\n")
	set, err := s.Option(s.File().Site.Options[0])
	if err != nil {
		t.Fatal(err)
	}
	c := s.File().Site.Choices[0]
	c.Label, c.HotSpares = "another", 1
	r, err := s.WithChoices([]array.Choice{c}, set...)
	if err != nil {
		t.Fatal(err)
	}
	f := r.File()
	if len(f.Site.Choices) != 1 || f.Site.Choices[0].Label != "another" || f.Site.Choices[0].HotSpares != 1 || !reflect.DeepEqual(f.Site.Choices[0].Care.Response, array.Fixed{Hours: 8}) {
		t.Errorf("%+v", f.Site.Choices)
	}
	for _, in := range r.Inputs() {
		if in.Axis.Path == "care.response" && (in.Given || in.Low.Text != "4 h" || in.High.Text != "16 h") {
			t.Errorf("response goes from %s to %s", in.Low.Text, in.High.Text)
		}
	}
}
