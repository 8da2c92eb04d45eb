package print

import (
	"fmt"
	"io"
	"strings"

	"arrayodds/array"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// mostInputs is how many inputs of a choice the table of a ranking shows.
const mostInputs = 6

// Rank writes, choice by choice, the inputs that move its loss chance most.
func Rank(w io.Writer, r study.Ranking) error {
	parts := []string{rewrapped(title(r.Site))}
	var ranked []array.Choice
	for _, c := range r.Choices {
		ranked = append(ranked, c.Choice)
	}
	parts = append(parts, updates(narrowColumns, r.Site, ranked...)...)
	more, guessed := false, false
	var named []string // inputs, with their paths
	seen := map[string]bool{}
	columns := []column{{"input, its swing,\nat low and at high", 20}, {"chance of\nloss", 0}, {"95 %", 0}}
	for _, c := range r.Choices {
		var inputs []headed
		var slight []string
		for i, in := range c.Inputs {
			if i > 0 && in.Slight() {
				slight = append(slight, plain(or(in.Called, in.Path)))
				continue
			}
			if len(inputs) == mostInputs {
				more = true
				break
			}
			guessed = guessed || !in.Given
			inputs = append(inputs, headed{swingLine(in, r.Thorough), [][]string{endRow(in.Low, in.AtLow), endRow(in.High, in.AtHigh)}})
			if in.Called != "" && in.Called != in.Path && !seen[in.Path] {
				seen[in.Path] = true
				named = append(named, narrow("%s: %s", plain(in.Called), kept(in.Path)))
			}
		}
		parts = append(parts, narrow("%s: %s as likely", plain(c.Choice.Label), figure.Odds(c.Likely)), layOutHeaded(columns, inputs))
		if slight != nil {
			parts = append(parts, narrow("By less than 5\u00a0%%: %s.", figure.List(slight)))
		}
	}
	if named != nil {
		parts = append(parts, narrow("In the site file:")+strings.Join(named, ""))
	}
	if guessed {
		parts = append(parts, narrow("* a default range, which is a guess: give your own in the site file, as { low = ..., likely = ..., high = ... }."))
	}
	if more {
		parts = append(parts, narrow("The page has the other inputs."))
	}
	for _, n := range r.Notes {
		parts = append(parts, narrow("%s", plain(n)))
	}
	parts = append(parts, narrow("A simulated chance is an estimate under the site file's assumptions. RAID is no backup."))
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}

// swingLine returns what an input is called, with a star where its range is a default,
// and how far it moves the chance.
func swingLine(in study.RankedInput, thorough bool) string {
	name := plain(or(in.Called, in.Path))
	if !in.Given {
		name += " *"
	}
	swing := strings.Replace(ratio(in.Swing), "\n", " (", 1)
	if strings.Contains(swing, "(") {
		swing += ")"
	}
	if !strings.HasPrefix(swing, "not ") {
		swing = "×" + swing
	}
	line := name + ": " + swing
	if thorough && in.Total != nil {
		line += fmt.Sprintf(", %.0f\u00a0%% of the variance (%.0f to %.0f)", 100*in.Total.Value, 100*in.Total.Low, 100*in.Total.High)
	}
	return line
}

// endRow returns the chance at one end of an input.
func endRow(at string, e estimate.Estimate) []string {
	value, interval, _ := strings.Cut(odds(e), "\n")
	const indent = "  "
	return []string{indent + strings.ReplaceAll(wrapped(plain(at), 18), "\n", "\n"+indent), value, interval}
}
