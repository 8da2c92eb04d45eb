package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/cmd/arrayodds/export"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"
)

// TestNewOutputFormat adds a made-up format by one row of the table and nothing
// else: the commands whose result it takes have its flag, and write it as they
// write the others.
func TestNewOutputFormat(t *testing.T) {
	before := export.Formats
	t.Cleanup(func() { export.Formats = before })
	export.Formats = append(before[:len(before):len(before)], export.Format{
		Name: "labels", Usage: "write the labels to `FILE`",
		Writers: []export.Writer{export.Of(func(w io.Writer, c study.Comparison) error {
			for _, o := range c.Outcomes {
				if _, err := fmt.Fprintln(w, o.Choice.Label); err != nil {
					return err
				}
			}
			return nil
		})},
	})
	simulate := func(context.Context, array.Site, array.Choice, engine.Options) (sim.Result, error) {
		return result(1), nil
	}
	status, text := runProgram(t, t.Context(), simulate, "compare", "-", "--labels", "x.txt", "--labels", "y.txt")
	if status != exitOK {
		t.Fatalf("status %d: %s", status, text)
	}
	for _, name := range []string{"x.txt", "y.txt"} {
		if data, err := os.ReadFile(name); err != nil || string(data) != "a\nb\nc\n" {
			t.Errorf("%s holds %q, %v", name, data, err)
		}
	}
	if status, text = runProgram(t, t.Context(), simulate, "compare", "-", "--labels", "no/x.txt", "--json", "x", "--labels", "x"); status != exitUsage ||
		!strings.Contains(text, "--labels: cannot write no/x.txt") || !strings.Contains(text, "--json and --labels both go to x") {
		t.Errorf("status %d: %s", status, text)
	}
	if status, text = runProgram(t, t.Context(), simulate, "rank", "-", "--labels", "x.txt"); status != exitUsage || !strings.Contains(text, "there is no flag --labels") {
		t.Errorf("status %d: %s", status, text)
	}
}
