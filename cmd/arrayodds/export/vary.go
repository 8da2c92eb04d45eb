package export

import (
	"cmp"
	"io"

	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// varyJSON writes what vary found over one or two inputs as one object. Points of
// two inputs come with the first one's values running fastest.
func varyJSON(w io.Writer, s study.Sweep) error {
	return writeJSON(w, document(s.Site, s.Seed,
		member{"currency", currency(s.Site)},
		member{"inputs", list(s.Inputs, inputObject)},
		member{"choices", list(s.Curves, func(c study.Curve) any { return curveObject(s, c) })},
		member{"break_even", breakEvenObject(s.BreakEven)},
	))
}

func inputObject(in study.Input) any {
	return object{
		{"path", in.Path},
		{"name", in.Called},
		{"unit", in.Unit},
		{"texts", in.Texts},
		{"values", list(in.Values, func(x float64) any { return x })},
		{"own", known(in.Own)},
	}
}

func curveObject(s study.Sweep, c study.Curve) object {
	at := 0
	return object{
		{"label", c.Choice.Label},
		{"own_loss_chance", c.Own},
		{"points", list(c.Points, func(p study.Point) any {
			o := pointObject(s, at, p)
			at++
			return o
		})},
	}
}

// pointObject returns the object of the point at a place. Where it has no figures
// they are null, and absent says why.
func pointObject(s study.Sweep, at int, p study.Point) object {
	var values []string
	for i, in := range s.Inputs {
		values = append(values, in.Texts[s.ValueAt(i, at)])
	}
	o := object{{"values", values}}
	figure := func(value any) any { return value }
	if p.Absent != "" {
		o = append(o, member{"absent", p.Absent})
		figure = func(any) any { return nil }
	}
	return append(o, object{
		{"drives", p.Drives},
		{"groups", p.Groups},
		{"meets_demand", p.Meets},
		{"purchase_cost", figure(known(p.Purchase))},
		{"cost_of_life", figure(p.CostOfLife)},
		{"loss_chance", figure(p.Loss)},
		{"missing_clip_chance", figure(p.Clip)},
		{"ratio_to_own", figure(ratio(p.ToOwn))},
		{"ratio_against", figure(ratio(p.Against))},
	}...)
}

func breakEvenObject(b *study.BreakEven) any {
	if b == nil {
		return nil
	}
	return object{
		{"goal", b.Goal},
		{"choices", list(b.Rows, func(r study.BreakEvenRow) any {
			return object{{"label", r.Choice.Label}, {"value", ratio(r.Value)}, {"words", r.Words}}
		})},
	}
}

// varyCSV writes one row a choice and value, or pair of values.
func varyCSV(w io.Writer, s study.Sweep) error {
	type row struct {
		choice string
		at     int // place of the point
		study.Point
	}
	var rows []row
	for _, c := range s.Curves {
		for at, p := range c.Points {
			rows = append(rows, row{c.Choice.Label, at, p})
		}
	}
	var all columns[row]
	all.add("choice", "", wideWords, func(r row) any { return r.choice })
	for i, in := range s.Inputs {
		all.add(in.Path, "", words, func(r row) any { return in.Texts[s.ValueAt(i, r.at)] })
		if in.Values != nil {
			all.add(in.Path+" ("+cmp.Or(in.Unit, "number")+")", "", hundred, func(r row) any { return in.Values[s.ValueAt(i, r.at)] })
		}
	}
	all.add("absent", "", longWords, func(r row) any { return r.Absent })
	all.add("drives", "", whole, func(r row) any { return r.Drives })
	all.add("groups", "", whole, func(r row) any { return r.Groups })
	all.add("meets_demand", "", words, func(r row) any { return r.Meets })
	all.add("purchase_cost", "", whole, func(r row) any { return r.Purchase })
	all.addEstimate("cost_of_life", "", whole, func(r row) estimate.Estimate { return r.CostOfLife })
	all.addEstimate("loss_chance", "", chance, func(r row) estimate.Estimate { return r.Loss })
	all.addEstimate("missing_clip_chance", "", chance, func(r row) estimate.Estimate { return r.Clip })
	all.addRatio("ratio_to_own", "", hundred, func(r row) estimate.Estimate { return r.ToOwn })
	all.addRatio("ratio_against", "", hundred, func(r row) estimate.Estimate { return r.Against })
	return writeCSV(w, all.sheet("Values", rows))
}
