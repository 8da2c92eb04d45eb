package partfile

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"unicode"
)

// word is what the names of commands and flags are like.
var word = regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)

// mostNamed bounds the bytes of the command line of a part.
const mostNamed = 1 << 19

// names returns an error where a part has a name that the program gives nothing: what is
// in a part is printed, and a command line among it that a reader may copy to a shell.
func (q *Question) names() error {
	if !word.MatchString(q.Command) {
		return fmt.Errorf("is of the command %q; right would be the name of one, in letters from a to z", q.Command)
	}
	length := len(q.Site) + len(q.Version) + len(q.Processor)
	for _, f := range q.Flags {
		for _, v := range f.Values {
			length += len(v)
		}
		if !word.MatchString(f.Name) {
			return fmt.Errorf("has a flag %q; right would be the name of one, in letters from a to z", f.Name)
		}
	}
	if length > mostNamed {
		return fmt.Errorf("has a command line of %d bytes; right would be at most %d", length, mostNamed)
	}
	if shown(q.Version) != q.Version || shown(q.Processor) != q.Processor {
		return errors.New("has control characters in the version of the program; right would be none")
	}
	return nil
}

// shown returns text without what would steer a terminal.
func shown(text string) string {
	return strings.Map(func(r rune) rune {
		if steers(r) {
			return unicode.ReplacementChar
		}
		return r
	}, text)
}

// steers reports whether a character steers a terminal, or turns the order of others.
func steers(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) }
