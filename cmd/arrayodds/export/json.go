package export

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"

	"arrayodds/array"
	"arrayodds/array/evidence"
	"arrayodds/sim/estimate"
	"arrayodds/sim/predictive"
)

// formatNumber is the format number of every JSON. It is raised when a key changes
// its meaning or goes.
const formatNumber = 1

// object is a JSON object, its members in the order in which they are written.
type object []member

// member is a key with its value: a string, a bool, a whole number, a list of
// strings, a float64 that is finite, an estimate (null where it is not known), an
// object, a list ([list]) or nil, which is null.
type member struct {
	key   string
	value any
}

// writeJSON writes an object indented, so that people can read it too.
func writeJSON(w io.Writer, o object) error {
	var compact, out bytes.Buffer
	if err := encode(&compact, o); err != nil {
		return err
	}
	if err := json.Indent(&out, compact.Bytes(), "", "  "); err != nil {
		return err
	}
	out.WriteByte('\n')
	_, err := w.Write(out.Bytes())
	return err
}

// document returns the object that the JSON of a site's result is: what all have,
// and the members of this one.
func document(s array.Site, seed uint64, members ...member) object {
	all := append(object{
		{"format", formatNumber},
		{"site", s.Name},
		{"seed", seed},
		{"service_life_hours", s.ServiceLife},
	}, members...)
	return append(all, member{"log", logObject(predictive.Look(s))})
}

// logObject returns what the log of a site makes of its assumptions, nil without one.
// Rates are failures per drive-year, or times the law as stated where that changes with
// age.
func logObject(r predictive.Report) any {
	if len(r.Updates) == 0 {
		return nil
	}
	rate := func(r evidence.Rate) object {
		return object{{"low", r.Low}, {"mean", r.Mean}, {"high", r.High}}
	}
	return object{
		{"drives", list(r.Updates, func(u predictive.Update) any {
			before, after := evidence.Rates(u.Log)
			return object{
				{"drive", u.Drive},
				{"failures", u.Log.Failures},
				{"drive_days", u.Log.DriveDays},
				{"expected_failures", u.Log.Expected * u.Log.Before.Mean()},
				{"times_the_law", u.Log.Stated.About().Ages},
				{"rate_before", rate(before)},
				{"rate", rate(after)},
				{"said", u.Words},
			}
		})},
		{"unlikely_below", r.Below},
		{"checks", list(orEmpty(r.Checks), func(c predictive.Check) any {
			return object{{"drive", c.Drive}, {"of", string(c.Kind)}, {"chance", c.P}, {"likely", c.Likely}, {"said", c.Said}, {"doubt", c.Doubt}}
		})},
	}
}

// encode writes a value, its blanks being left to [json.Indent]. The error names the keys that lead to a
// figure that cannot be written.
func encode(b *bytes.Buffer, v any) error {
	switch v := v.(type) {
	case object:
		b.WriteByte('{')
		for i, m := range v {
			if i > 0 {
				b.WriteByte(',')
			}
			if err := encode(b, m.key); err != nil {
				return err
			}
			b.WriteByte(':')
			if err := encode(b, m.value); err != nil {
				return fmt.Errorf("%s: %w", m.key, err)
			}
		}
		b.WriteByte('}')
		return nil
	case []any:
		b.WriteByte('[')
		for i, item := range v {
			if i > 0 {
				b.WriteByte(',')
			}
			if err := encode(b, item); err != nil {
				return fmt.Errorf("%d: %w", i, err)
			}
		}
		b.WriteByte(']')
		return nil
	case estimate.Estimate:
		if !v.Known() {
			return encode(b, nil)
		}
		return encode(b, estimateMembers(v))
	case float64:
		if err := finite(v); err != nil {
			return err
		}
		return encodeAs(b, tidy(v))
	}
	return encodeAs(b, v)
}

// encodeAs writes what package json writes of a value, with < and > as they are.
func encodeAs(b *bytes.Buffer, v any) error {
	e := json.NewEncoder(b)
	e.SetEscapeHTML(false)
	return e.Encode(v)
}

// estimateMembers returns the members of an estimate that is known.
func estimateMembers(e estimate.Estimate) object {
	return object{{"value", e.Value}, {"low", e.Low}, {"high", e.High}, {"relative_error", e.RelativeError}}
}

// interval returns the object of a figure with its 95 % interval, of which either
// end may be nil.
func interval(value float64, low, high any) object {
	return object{{"value", value}, {"low", low}, {"high", high}}
}

// ratio returns the object of a ratio, nil if it is not known or infinite. An
// infinite end of its interval is null.
func ratio(e estimate.Estimate) any {
	if bounded(e.Value) == nil {
		return nil
	}
	return interval(e.Value, bounded(e.Low), bounded(e.High))
}

// list returns the JSON array of what f makes of each item, or nil if items is nil.
func list[T any](items []T, f func(T) any) any {
	if items == nil {
		return nil
	}
	all := make([]any, len(items))
	for i, item := range items {
		all[i] = f(item)
	}
	return all
}

// orEmpty returns items, or an empty slice if items is nil: [] in place of null.
func orEmpty[T any](items []T) []T {
	if items == nil {
		return []T{}
	}
	return items
}

// known returns x, or nil if it is NaN: a figure that is not known.
func known(x float64) any {
	if math.IsNaN(x) {
		return nil
	}
	return x
}

// bounded returns x, or nil if it is NaN or infinite.
func bounded(x float64) any {
	if math.IsInf(x, 0) {
		return nil
	}
	return known(x)
}

// given returns what x points to, or nil if there is no such figure.
func given[T any](x *T) any {
	if x == nil {
		return nil
	}
	return *x
}
