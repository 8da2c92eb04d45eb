package export

import (
	"io"

	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// rankJSON writes the inputs of each choice as one object, the widest swing first.
func rankJSON(w io.Writer, r study.Ranking) error {
	return writeJSON(w, document(r.Site, r.Seed,
		member{"choices", list(r.Choices, func(c study.RankedChoice) any {
			return object{
				{"label", c.Choice.Label},
				{"loss_chance", c.Likely},
				{"inputs", list(orEmpty(c.Inputs), rankedInputObject)},
			}
		})},
	))
}

func rankedInputObject(in study.RankedInput) any {
	return object{
		{"path", in.Path},
		{"name", in.Called},
		{"low", in.Low},
		{"likely", in.Likely},
		{"high", in.High},
		{"given", in.Given},
		{"loss_chance_at_low", in.AtLow},
		{"loss_chance_at_high", in.AtHigh},
		{"swing", ratio(in.Swing)},
		{"variance_share_first", ratio(orNone(in.First))},
		{"variance_share_total", ratio(orNone(in.Total))},
	}
}

// rankCSV writes one row a choice and input.
func rankCSV(w io.Writer, r study.Ranking) error {
	type row struct {
		choice string
		study.RankedInput
	}
	var rows []row
	for _, c := range r.Choices {
		for _, in := range c.Inputs {
			rows = append(rows, row{c.Choice.Label, in})
		}
	}
	var all columns[row]
	all.add("choice", "", wideWords, func(r row) any { return r.choice })
	all.add("input", "", wideWords, func(r row) any { return r.Path })
	all.add("low", "", words, func(r row) any { return r.Low })
	all.add("likely", "", words, func(r row) any { return r.Likely })
	all.add("high", "", words, func(r row) any { return r.High })
	all.add("range", "", words, func(r row) any {
		if r.Given {
			return "given"
		}
		return r.Range
	})
	all.addEstimate("loss_chance_at_low", "", chance, func(r row) estimate.Estimate { return r.AtLow })
	all.addEstimate("loss_chance_at_high", "", chance, func(r row) estimate.Estimate { return r.AtHigh })
	all.addRatio("swing", "", hundred, func(r row) estimate.Estimate { return r.Swing })
	all.addRatio("variance_share_first", "", hundred, func(r row) estimate.Estimate { return orNone(r.First) })
	all.addRatio("variance_share_total", "", hundred, func(r row) estimate.Estimate { return orNone(r.Total) })
	return writeCSV(w, all.sheet("Inputs", rows))
}

// orNone returns an estimate that may be nil, where it was not worked out.
func orNone(e *estimate.Estimate) estimate.Estimate {
	if e == nil {
		return estimate.None()
	}
	return *e
}
