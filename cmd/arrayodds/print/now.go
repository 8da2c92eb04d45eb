package print

import (
	"fmt"
	"io"
	"strings"

	chartsnow "arrayodds/charts/now"
	"arrayodds/sim/figure"
	"arrayodds/sim/now"
)

// Now writes how an array stands, what to do, what not to do, and what takes how much
// off.
func Now(w io.Writer, r now.Result) error {
	_, err := io.WriteString(w, strings.Join(nowParts(r), "\n"))
	return err
}

// Drill writes the state to practise on, as a file.
func Drill(w io.Writer, d chartsnow.Drill) error {
	parts := []string{
		rewrapped(title(d.Site)),
		narrow("A state of %q to practise on, drawn from its simulated lives. The page has the questions, and the answers behind them.", plain(d.Choice.Label)),
		fileLines(d.File),
	}
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}

// fileLines returns the lines of a file, each made fit for a terminal.
func fileLines(file string) string {
	lines := strings.Split(strings.TrimSuffix(file, "\n"), "\n")
	for i, l := range lines {
		lines[i] = plain(l)
	}
	return strings.Join(lines, "\n") + "\n"
}

func nowParts(r now.Result) []string {
	parts := []string{rewrapped(title(r.Site)), narrow("%s: %s", plain(r.Choice.Label), plain(r.Says.Headline))}
	for _, s := range r.Says.Chance {
		parts[1] += narrow("%s", plain(s))
	}
	parts = append(parts, listed("Do:", r.Says.Do), listed("Do not:", r.Says.Dont))
	if len(r.Actions) > 0 {
		columns := []column{{"what is done", 34}, {"chance of loss\nwithin 30 days", 0}, {"what is\nleft", 0}}
		rows := [][]string{{"leave it alone", typed(figure.Odds(r.Loss)), ""}}
		add := func(a *now.Action) {
			rows = append(rows, []string{plain(a.Name), typed(figure.Odds(a.Loss)), ratio(a.Ratio)})
		}
		for i := range r.Actions {
			add(&r.Actions[i])
		}
		if r.Together != nil {
			add(r.Together)
		}
		parts = append(parts, layOut(columns, rows))
	}
	if n := len(r.Copies); n > 0 {
		var lines []string
		for _, c := range r.Copies {
			name := c.Label
			if name == "" {
				name = "all cameras"
			}
			lines = append(lines, fmt.Sprintf("%s %s (%s to lose it before that is done)", plain(name), typed(now.Hours(c.Hours)), typed(figure.Odds(c.Loss))))
		}
		parts = append(parts, narrow("Copied out first, the last week takes: %s.", strings.Join(lines, "; ")))
	}
	for _, s := range r.Says.Notes {
		parts = append(parts, narrow("%s", plain(s)))
	}
	parts = append(parts, updates(narrowColumns, r.Site, r.Choice)...)
	for _, s := range r.Warnings {
		parts = append(parts, narrow("! %s", plain(s)))
	}
	return append(parts, narrow("A simulated chance is an estimate under what was entered. RAID is no backup; what a lost array still holds is a matter for a specialist."))
}

// listed returns sentences below a heading.
func listed(heading string, sentences []string) string {
	text := heading + "\n"
	for _, s := range sentences {
		text += narrow("- %s", plain(s))
	}
	return text
}
