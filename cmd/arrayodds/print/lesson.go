package print

import (
	"io"
	"strings"

	"arrayodds/sim/figure"
	"arrayodds/sim/teach"
)

// Lesson writes the questions of a lesson, without the answers.
func Lesson(w io.Writer, l teach.Lesson) error {
	parts := []string{narrow("%s: %s on %q", plain(l.Site.Name), questions(len(l.Questions)), plain(l.Choice.Label))}
	parts = append(parts, updates(narrowColumns, l.Site, l.Choice)...)
	for i, q := range l.Questions {
		parts = append(parts, narrow("%d  %s. %s", i+1, plain(q.Title), plain(q.Ask)))
	}
	for _, n := range l.NotAsked {
		parts = append(parts, narrow("%s", plain(n)))
	}
	if l.Unanswered {
		parts = append(parts, narrow("The page has the questions alone."))
	} else {
		parts = append(parts, narrow("The answers are in the page, behind the reader's own."))
	}
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}

// questions returns how many there are, in a word: "three questions".
func questions(n int) string {
	words := []string{"no questions", "one question", "two questions", "three questions", "four questions", "five questions", "six questions", "seven questions"}
	if n < len(words) {
		return words[n]
	}
	return figure.Count(n, "question", "questions")
}
