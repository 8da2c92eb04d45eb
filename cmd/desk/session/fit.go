package session

import (
	"context"
	"errors"
	"io"
	"path"

	"arrayodds/array/record"
	"arrayodds/array/record/sheets"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// fitted reads a record and fits each of its labels. name is what it is called.
func (q *question) fitted(ctx context.Context, from io.Reader, name string) (study.Fit, error) {
	if name == "" {
		name = "record"
	}
	until, understood := q.Until()
	rec, err := record.Read(ctx, from, name, record.Options{Until: until, UntilUnknown: !understood, Workbook: sheets.Read})
	if errs, ok := errors.AsType[record.Errors](err); ok { // beside those of the arguments
		for _, e := range errs {
			q.errs = append(q.errs, userError{Text: e.Error()})
		}
	} else if err != nil {
		return study.Fit{}, err
	}
	if err := q.err(); err != nil {
		return study.Fit{}, err
	}
	return study.FitRecord(ctx, rec, path.Base(name))
}

// fitAnswer is the answer of fit.
type fitAnswer struct {
	pointed
	Laws []law `json:"laws"`
}

// law is the life law that the record of a label decides for.
type law struct {
	Label string `json:"label"`
	Life  string `json:"life"` // as the site file has it: { fit = ... }
}

func fitAnswerOf(f study.Fit) fitAnswer {
	out := fitAnswer{pointed{[]string{}}, []law{}}
	for _, r := range f.Results {
		percent := r.AFR.Times(100)
		text := r.Label + ": " + figure.Number(percent) + " % fail in a year"
		if r.AFR.Low < r.AFR.High {
			text += " (95 %: " + figure.Interval(percent) + ")"
		}
		text += ", by " + figure.Plural(figure.Whole(r.Failures), "failure", "failures") + " in " + figure.Whole(r.DriveDays) + " drive-days"
		if w := r.Weibull; w != nil {
			text += "; the rate changes with age with a p of " + figure.Significance(*r.LikelihoodRatioP) + ", Weibull shape " + shape(w.Shape)
		}
		out.Points = append(out.Points, text+".")
		for _, w := range r.Warnings {
			out.Points = append(out.Points, r.Label+": "+w)
		}
		if r.Life != nil {
			out.Laws = append(out.Laws, law{r.Label, r.Life.SiteFile()})
		}
	}
	return out
}

// shape returns the shape of a Weibull law with its interval.
func shape(e estimate.Estimate) string {
	value, interval := figure.Bounded(e)
	return value + " (95 %: " + interval + ")"
}
