package print

import (
	"strings"
	"testing"

	"arrayodds/sim/teach"
)

func TestLesson(t *testing.T) {
	s, outcomes := sample()
	got := show(t, func(b *strings.Builder) error {
		return Lesson(b, teach.Lesson{Site: s, Choice: outcomes[0].Choice, Questions: []teach.Question{{Title: "Larger drives", Ask: "What then?"}}})
	})
	for _, want := range []string{"1  Larger drives. What then?", "in the page"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q lacks %q", got, want)
		}
	}
}
