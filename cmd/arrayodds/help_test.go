package main

import (
	"strings"
	"testing"
)

// TestHelpHasOneExample checks that a command's help says what it is for and ends
// what it says with one example, which the command itself understands.
func TestHelpHasOneExample(t *testing.T) {
	for _, c := range (program{}).commands() {
		t.Run(c.Name, func(t *testing.T) {
			var out, errOut strings.Builder
			if status := (program{out: &out, err: &errOut}).run(t.Context(), []string{"arrayodds", c.Name, "--help"}); status != exitOK || errOut.Len() > 0 {
				t.Fatalf("status %d: %s", status, errOut.String())
			}
			if c.Usage == "" || !strings.Contains(out.String(), c.Usage) {
				t.Error("the help does not say what the command is for")
			}
			about, example, _ := strings.Cut(c.Description, "\n\nEXAMPLE\n   ")
			if strings.Contains(about, "arrayodds "+c.Name) || strings.Contains(example, "\n") {
				t.Fatalf("more than one example, or none at the end:\n%s", c.Description)
			}
			line, ok := strings.CutPrefix(example, "arrayodds "+c.Name+" ")
			if !ok {
				t.Fatalf("the example is %q", example)
			}
			args := words(t, line)
			if got := arrange(c, args); got.errs != nil || got.args[len(got.args)-1] != args[0] {
				t.Errorf("the example %q is read as %q: %v", example, got.args, got.errs)
			}
		})
	}
}
