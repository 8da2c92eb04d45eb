package export

import (
	"io"
	"slices"
	"strings"
	"testing"

	"arrayodds/sim/choose"
	"arrayodds/sim/fleet"
	"arrayodds/sim/plan"
	"arrayodds/sim/sizing"
	"arrayodds/sim/study"
	"arrayodds/sim/teach"
)

func TestFormatsOf(t *testing.T) {
	for _, c := range []struct {
		result any
		want   string
	}{
		{study.Comparison{}, "html sheet json csv xlsx"},
		{choose.Found{}, "html sheet json csv"},
		{study.Sweep{}, "html json csv"},
		{study.Ranking{}, "html json csv"},
		{teach.Lesson{}, "html"},
		{study.Replay{}, "html"},
		{plan.Plan{}, "html json"},
		{study.Fit{}, "html json"},
		{sizing.Suggestions{}, "html json csv"},
		{fleet.Result{}, "html json csv xlsx"},
		{"no result", ""},
	} {
		var names []string
		for _, f := range FormatsOf(c.result) {
			names = append(names, f.Name)
		}
		if got := strings.Join(names, " "); got != c.want {
			t.Errorf("a %T is written as %q, want %q", c.result, got, c.want)
		}
	}
}

// A page goes beside the input unasked, save that of a sizing.
func TestAskedFormats(t *testing.T) {
	for _, c := range []struct {
		result any
		always bool
	}{{study.Comparison{}, true}, {study.Fit{}, true}, {sizing.Suggestions{}, false}} {
		for _, f := range FormatsOf(c.result) {
			if f.Always != (c.always && f.Name == "html") {
				t.Errorf("%s of a %T is written unasked: %v", f.Name, c.result, f.Always)
			}
		}
	}
}

func TestFormatWrite(t *testing.T) {
	upper := Format{Name: "upper", Writers: []Writer{
		Of(func(w io.Writer, s string) error { _, err := io.WriteString(w, strings.ToUpper(s)); return err }),
		Of(func(w io.Writer, s interface{ String() string }) error {
			_, err := io.WriteString(w, s.String())
			return err
		}),
	}}
	var named strings.Builder
	named.WriteString("itself")
	for _, c := range []struct {
		result any
		want   string
	}{{"a word", "A WORD"}, {&named, "itself"}} {
		var b strings.Builder
		if err := upper.Write(&b, c.result); err != nil || b.String() != c.want {
			t.Errorf("%v is written as %q, %v, want %q", c.result, b.String(), err, c.want)
		}
	}
	if err := upper.Write(io.Discard, 3); err == nil {
		t.Error("a number is taken for a word")
	}
}

// A format has a name of its own and tells a flag's help where the file stands.
func TestFormatsCanBeFlags(t *testing.T) {
	var names []string
	for _, f := range Formats {
		if f.Name == "" || slices.Contains(names, f.Name) || !strings.Contains(f.Usage, "`FILE`") || len(f.Writers) == 0 {
			t.Errorf("%+v", f)
		}
		names = append(names, f.Name)
	}
}
