package export

import (
	"io"

	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// RankedJSON writes the inputs of each choice, the widest swing first, as one
// indented object.
func RankedJSON(w io.Writer, r study.Ranking) error {
	out := rankedDocument{Format: formatNumber, Site: r.Site.Name, Seed: r.Seed, ServiceLife: number(r.Site.ServiceLife)}
	for _, c := range r.Choices {
		choice := rankedChoice{Label: c.Choice.Label, Likely: jsonEstimateOf(c.Likely), Inputs: []rankedInput{}}
		for _, in := range c.Inputs {
			i := rankedInput{Path: in.Path, Low: in.Low, Likely: in.Likely, High: in.High, Given: in.Given,
				AtLow: jsonEstimateOf(in.AtLow), AtHigh: jsonEstimateOf(in.AtHigh), Swing: spanOf(in.Swing)}
			if in.First != nil {
				i.First, i.Total = spanOf(*in.First), spanOf(*in.Total)
			}
			choice.Inputs = append(choice.Inputs, i)
		}
		out.Choices = append(out.Choices, choice)
	}
	return indented(w, out)
}

type rankedDocument struct {
	Format      int            `json:"format"`
	Site        string         `json:"site"`
	Seed        uint64         `json:"seed"`
	ServiceLife number         `json:"service_life_hours"`
	Choices     []rankedChoice `json:"choices"`
}

type rankedChoice struct {
	Label  string        `json:"label"`
	Likely jsonEstimate  `json:"loss_chance"`
	Inputs []rankedInput `json:"inputs"`
}

type rankedInput struct {
	Path   string        `json:"path"`
	Low    string        `json:"low"`
	Likely string        `json:"likely"`
	High   string        `json:"high"`
	Given  bool          `json:"given"`
	AtLow  jsonEstimate  `json:"loss_chance_at_low"`
	AtHigh jsonEstimate  `json:"loss_chance_at_high"`
	Swing  *jsonInterval `json:"swing"`
	First  *jsonInterval `json:"variance_share_first"`
	Total  *jsonInterval `json:"variance_share_total"`
}

// RankedCSV writes one row a choice and input, in the manner of [CSV].
func RankedCSV(w io.Writer, r study.Ranking) error {
	rows := [][]any{{"choice", "input", "low", "likely", "high", "range", "loss_chance_at_low", "loss_chance_at_low_low", "loss_chance_at_low_high",
		"loss_chance_at_high", "loss_chance_at_high_low", "loss_chance_at_high_high", "swing", "swing_low", "swing_high",
		"variance_share_first", "variance_share_first_low", "variance_share_first_high", "variance_share_total", "variance_share_total_low", "variance_share_total_high"}}
	for _, c := range r.Choices {
		for _, in := range c.Inputs {
			how := in.Range
			if in.Given {
				how = "given"
			}
			row := []any{c.Choice.Label, in.Path, in.Low, in.Likely, in.High, how}
			none := estimate.None()
			first, total := none, none
			if in.First != nil {
				first, total = *in.First, *in.Total
			}
			for _, e := range []estimate.Estimate{in.AtLow, in.AtHigh, in.Swing, first, total} {
				row = append(row, e.Value, e.Low, e.High)
			}
			rows = append(rows, row)
		}
	}
	return csvRows(w, rows)
}
