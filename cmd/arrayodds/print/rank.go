package print

import (
	"fmt"
	"io"
	"strings"

	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// mostInputs is how many inputs of a choice the table of a ranking shows.
const mostInputs = 6

// Rank writes, choice by choice, the inputs that move its loss chance most.
func Rank(w io.Writer, r study.Ranking) error {
	parts := []string{title(r.Site)}
	more, guessed := false, false
	columns := []column{{"input, from its low\nto its high", 34}, {"chance of loss at\nlow (95 %)", 0}, {"at\nhigh (95 %)", 0}, {"swing\n(95 %)", 0}}
	if r.Thorough {
		columns = append(columns, column{"share of\nvariance", 0})
	}
	for _, c := range r.Choices {
		var rows [][]string
		for i, in := range c.Inputs {
			if i == mostInputs {
				more = true
				break
			}
			path := plain(in.Path)
			if !in.Given {
				path, guessed = path+" *", true
			}
			row := []string{path + "\n" + between(plain(in.Low), plain(in.High)), odds(in.AtLow), odds(in.AtHigh), ratio(in.Swing)}
			if r.Thorough {
				share := "-"
				if in.Total != nil {
					share = fmt.Sprintf("%.0f %%\n%.0f to %.0f", 100*in.Total.Value, 100*in.Total.Low, 100*in.Total.High)
				}
				row = append(row, share)
			}
			rows = append(rows, row)
		}
		parts = append(parts, paragraph("%s: %s as likely", plain(c.Choice.Label), typed(figure.Odds(c.Likely))), layOut(columns, rows))
	}
	if guessed {
		parts = append(parts, paragraph("* a default range, which is a guess: give your own in the site file, as { low = ..., likely = ..., high = ... }."))
	}
	if more {
		parts = append(parts, paragraph("The page has the other inputs."))
	}
	for _, n := range r.Notes {
		parts = append(parts, paragraph("%s", plain(n)))
	}
	parts = append(parts, paragraph("A simulated chance is an estimate under the site file's assumptions. RAID is no backup."))
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}
