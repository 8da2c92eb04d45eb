package study

import (
	"context"

	"arrayodds/array/record"
	"arrayodds/sim/fit"
)

// Fit is the result of [FitRecord].
type Fit struct {
	Record  string // its name
	Form    string // of the record, in words
	Rows    int
	Results []fit.Result // one a label
}

// FitRecord fits a life law to each label of a record. Its error is the context's.
func FitRecord(ctx context.Context, r record.Record, name string) (Fit, error) {
	out := Fit{Record: name, Form: r.Form, Rows: r.Rows}
	for _, fleet := range r.Fleets {
		if err := ctx.Err(); err != nil {
			return Fit{}, err
		}
		out.Results = append(out.Results, fit.Fleet(fleet))
	}
	return out, nil
}
