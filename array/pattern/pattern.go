// Package pattern has regular expressions that are compiled when they are first used:
// to compile all of those that readers have takes longer than to begin, where the
// program runs in a page.
package pattern

import (
	"regexp"
	"sync"
)

// Of returns what gives the compiled expression, the same each time. That panics where it
// is none.
func Of(expression string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })
}
