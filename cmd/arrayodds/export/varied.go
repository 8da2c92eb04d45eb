package export

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"math"

	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// VariedJSON writes what vary found over one or two inputs as one indented
// object. Points of two inputs come with the first one's values running fastest.
func VariedJSON(w io.Writer, v study.Sweep) error {
	out := variedDocument{Format: formatNumber, Site: v.Site.Name, Seed: v.Seed, ServiceLife: number(v.Site.ServiceLife)}
	for _, in := range v.Inputs {
		i := variedInput{Path: in.Path, Unit: in.Unit, Texts: in.Texts, Own: known(in.Own)}
		for _, x := range in.Values {
			i.Values = append(i.Values, number(x))
		}
		out.Inputs = append(out.Inputs, i)
	}
	for _, c := range v.Curves {
		curve := variedChoice{Label: c.Choice.Label, Own: jsonEstimateOf(c.Own)}
		for i, p := range c.Points {
			curve.Points = append(curve.Points, variedPointOf(v.Inputs, i, p))
		}
		out.Choices = append(out.Choices, curve)
	}
	if b := v.BreakEven; b != nil {
		out.BreakEven = &variedBreakEven{Goal: b.Goal}
		for _, r := range b.Rows {
			out.BreakEven.Choices = append(out.BreakEven.Choices, variedBreakEvenRow{r.Choice.Label, spanOf(r.Value), r.Words})
		}
	}
	return indented(w, out)
}

type variedDocument struct {
	Format      int              `json:"format"`
	Site        string           `json:"site"`
	Seed        uint64           `json:"seed"`
	ServiceLife number           `json:"service_life_hours"`
	Inputs      []variedInput    `json:"inputs"`
	Choices     []variedChoice   `json:"choices"`
	BreakEven   *variedBreakEven `json:"break_even"`
}

type variedInput struct {
	Path   string   `json:"path"`
	Unit   string   `json:"unit"`
	Texts  []string `json:"texts"`
	Values []number `json:"values"`
	Own    *number  `json:"own"`
}

type variedChoice struct {
	Label  string        `json:"label"`
	Own    jsonEstimate  `json:"own_loss_chance"`
	Points []variedPoint `json:"points"`
}

type variedPoint struct {
	Values   []string      `json:"values"`
	Absent   string        `json:"absent,omitempty"`
	Drives   int           `json:"drives"`
	Meets    bool          `json:"meets_demand"`
	Purchase *number       `json:"purchase_cost"`
	Loss     *jsonEstimate `json:"loss_chance"`
	Clip     *jsonEstimate `json:"missing_clip_chance"`
	ToOwn    *jsonInterval `json:"ratio_to_own"`
	Against  *jsonInterval `json:"ratio_against"`
}

type variedBreakEven struct {
	Goal    string               `json:"goal"`
	Choices []variedBreakEvenRow `json:"choices"`
}

type variedBreakEvenRow struct {
	Label string        `json:"label"`
	Value *jsonInterval `json:"value"`
	Words string        `json:"words"`
}

// valuesAt is the values that point i has, in words.
func valuesAt(inputs []study.Input, i int) []string {
	first := inputs[0].Texts
	values := []string{first[i%len(first)]}
	if len(inputs) > 1 {
		values = append(values, inputs[1].Texts[i/len(first)])
	}
	return values
}

func variedPointOf(inputs []study.Input, i int, p study.Point) variedPoint {
	out := variedPoint{Values: valuesAt(inputs, i), Absent: p.Absent, Drives: p.Drives, Meets: p.Meets}
	if p.Absent != "" {
		return out
	}
	out.Purchase, out.Loss, out.Clip = known(p.Purchase), some(p.Loss), some(p.Clip)
	out.ToOwn, out.Against = spanOf(p.ToOwn), spanOf(p.Against)
	return out
}

// spanOf is nil for what is not known, and has no end where there is none.
func spanOf(e estimate.Estimate) *jsonInterval {
	if math.IsNaN(e.Value) || math.IsInf(e.Value, 0) {
		return nil
	}
	end := func(x float64) *number {
		if math.IsInf(x, 0) {
			return nil
		}
		return known(x)
	}
	return &jsonInterval{number(e.Value), end(e.Low), end(e.High)}
}

// VariedCSV writes one row a choice and value, or pair of values, in the manner of
// [CSV].
func VariedCSV(w io.Writer, v study.Sweep) error {
	heads := []any{"choice"}
	for _, in := range v.Inputs {
		heads = append(heads, in.Path)
		if in.Values != nil {
			heads = append(heads, in.Path+" ("+cmp.Or(in.Unit, "number")+")")
		}
	}
	heads = append(heads, "absent", "drives", "meets_demand", "purchase_cost", "loss_chance", "loss_chance_low", "loss_chance_high",
		"missing_clip_chance", "missing_clip_chance_low", "missing_clip_chance_high", "ratio_to_own", "ratio_to_own_low", "ratio_to_own_high",
		"ratio_against", "ratio_against_low", "ratio_against_high")
	rows := [][]any{heads}
	for _, c := range v.Curves {
		for i, p := range c.Points {
			row := []any{c.Choice.Label}
			for k, in := range v.Inputs {
				at := i % len(v.Inputs[0].Texts)
				if k == 1 {
					at = i / len(v.Inputs[0].Texts)
				}
				row = append(row, in.Texts[at])
				if in.Values != nil {
					row = append(row, in.Values[at])
				}
			}
			row = append(row, p.Absent, p.Drives, yesNo(p.Meets), p.Purchase)
			for _, e := range []estimate.Estimate{p.Loss, p.Clip, p.ToOwn, p.Against} {
				row = append(row, e.Value, e.Low, e.High)
			}
			rows = append(rows, row)
		}
	}
	return csvRows(w, rows)
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// csvRows writes rows of words and figures; an end beyond all bounds is empty.
func csvRows(w io.Writer, rows [][]any) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	for _, row := range rows {
		cells := make([]string, len(row))
		for i, v := range row {
			if x, ok := v.(float64); ok && math.IsInf(x, 0) {
				continue
			}
			cell, err := csvCell(v)
			if err != nil {
				return fmt.Errorf("%v: %w", row[0], err)
			}
			cells[i] = cell
		}
		if err := out.Write(cells); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}
