package print

import (
	"io"
	"strings"

	"arrayodds/sim/study"
)

// Lesson writes the questions of a lesson, without the answers.
func Lesson(w io.Writer, l study.Lesson) error {
	parts := []string{paragraph("%s: three questions on %q", plain(l.Site.Name), plain(l.Choice.Label))}
	if len(l.Questions) != 3 {
		parts[0] = paragraph("%s: questions on %q", plain(l.Site.Name), plain(l.Choice.Label))
	}
	for i, q := range l.Questions {
		parts = append(parts, paragraph("%d  %s. %s", i+1, plain(q.Title), typed(plain(q.Ask))))
	}
	parts = append(parts, paragraph("The answers are in the page, behind the reader's own."))
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}
