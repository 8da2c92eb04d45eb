package form

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"arrayodds/array/site"
	"arrayodds/array/toml"
	"arrayodds/array/toml/edit"
	"arrayodds/array/unit"
)

// fields returns those of a table, which may be absent. table is its path among the keys,
// path that of the form, under what the reader calls it.
func (r *reader) fields(table string, n *edit.Node, path, under string) []Field {
	all := make([]Field, 0, len(r.in[table]))
	for _, k := range r.in[table] {
		if !section(k) {
			all = append(all, r.of(k, n, path, under))
		}
	}
	return append(all, r.strays(table, n, path, all)...)
}

// maxUnknown is how many keys of one table are shown that are not known: a reader of more
// would mend none.
const maxUnknown = 100

// strays returns the keys of a table that are not among its fields: of another form of a
// law, or unknown.
func (r *reader) strays(table string, n *edit.Node, path string, shown []Field) (all []Field) {
	if n == nil {
		return nil
	}
	is := make(map[string]bool, len(shown))
	for i := range shown {
		is[shown[i].Name] = true
	}
	for _, name := range n.Keys {
		if is[name] {
			continue
		}
		k := r.named[join(table, name)]
		if k != nil && section(k) || k == nil && is[layoutName(name)] {
			continue
		}
		v := n.Under[name]
		if k == nil && len(all) >= maxUnknown {
			continue
		}
		if k == nil {
			if path != "" || v.Kind != edit.Table && v.Kind != edit.List || v.To > 0 {
				all = append(all, r.unknown(name, v, pathOf(path, edit.Key(name))))
			}
			continue
		}
		f := r.of(k, n, path, "")
		f.Excluded = "it belongs to another form"
		all = append(all, f)
	}
	return all
}

// unknown returns the field of a key that is not in the table of keys.
func (r *reader) unknown(name string, n *edit.Node, path string) Field {
	return Field{Path: path, Name: name, Label: name, Kind: Unknown, Text: r.text.Written(n), Given: true, Line: n.Line}
}

// of returns the field of one key of a table, which may be absent.
func (r *reader) of(k *site.Key, in *edit.Node, path, under string) Field {
	s := r.said[k.Path]
	name, n := k.Name(), (*edit.Node)(nil)
	if in != nil {
		if n = in.Under[name]; n == nil && strings.HasPrefix(k.Path, "sizing.customary_width.") {
			for _, key := range in.Keys {
				if layoutName(key) == name {
					name, n = key, in.Under[key]
				}
			}
		}
	}
	f := Field{Path: pathOf(path, edit.Key(name)), Name: k.Name(), Label: s.label, Doc: k.Doc, Takes: s.takes, Kind: kindOf(k),
		Units: k.Quantity.Units, Words: k.Words, Other: k.Other, Forms: s.forms, Low: s.low, High: s.high, Required: k.Required,
		MayRange: uncertain(k) && !site.Descriptive(strings.SplitN(k.Path, ".", 2)[0])}
	if k.LabelOf != "" {
		f.Kind, f.Words = Word, r.drives
	}
	if k.None && !slices.Contains(f.Words, "none") {
		f.Words = append(slices.Clip(f.Words), "none")
	}
	beside(&f, k, in)
	r.defaults(&f, k, toml.Join(under, k.Name()))
	if n == nil {
		if k.Kind == toml.SubTable && len(k.Forms) == 0 && !r.needed(k.Path) {
			f.Fields = r.fields(k.Path, nil, f.Path, "")
		}
		measure(&f, k, f.Default)
		return f
	}
	f.Given, f.Line, f.Text = true, n.Line, r.shown(n)
	likely, at := n, f.Path
	if ranged(k, n) {
		f.Range = &Range{r.shown(n.Under["low"]), r.shown(n.Under["likely"]), r.shown(n.Under["high"])}
		likely, at = n.Under["likely"], pathOf(at, edit.Key("likely"))
	}
	if likely != nil {
		r.inside(&f, k, likely, at)
		measure(&f, k, r.shown(likely))
	}
	return f
}

// inside gives a law or table the fields that are in it.
func (r *reader) inside(f *Field, k *site.Key, n *edit.Node, at string) {
	first := len(f.Forms) - len(k.Forms) // before them, a time that is no law
	switch {
	case k.Kind == toml.Time && (n.Kind == edit.String && !strings.EqualFold(strings.TrimSpace(n.Text), "none") || n.Kind == edit.Bare):
		f.Form = new(int)
	case n.Kind != edit.Table:
	case len(k.Forms) > 0:
		for i, form := range k.Forms {
			if !slices.ContainsFunc(form.Keys, func(key string) bool { return n.Under[key] != nil }) {
				continue
			}
			chosen := first + i
			f.Form = &chosen
			for _, name := range form.Keys {
				own := r.named[k.Path+"."+name]
				if in := n.Under[name]; own.Kind == toml.SubTable && len(own.Forms) == 0 && in != nil && in.Kind == edit.Table {
					f.Fields = append(f.Fields, r.fields(own.Path, in, pathOf(at, edit.Key(name)), "")...)
					continue
				}
				f.Fields = append(f.Fields, r.of(own, n, at, ""))
			}
			break
		}
		for _, stray := range r.strays(k.Path, n, at, f.Fields) {
			if len(k.Forms) == 0 || f.Form == nil || !slices.Contains(k.Forms[*f.Form-first].Keys, stray.Name) {
				f.Fields = append(f.Fields, stray)
			}
		}
	case k.Kind == toml.SubTable:
		f.Fields = r.fields(k.Path, n, at, "")
		if len(f.Forms) > 0 {
			f.Form = new(int)
		}
	}
}

// beside marks a field by the keys that are given beside it.
func beside(f *Field, k *site.Key, in *edit.Node) {
	if in == nil {
		return
	}
	given := func(names []string) string {
		for _, name := range names {
			if in.Under[name] != nil {
				return name
			}
		}
		return ""
	}
	if given(k.Instead) != "" || given(k.Unless) != "" {
		f.Required = false
	}
	if other := given(k.Unless); other != "" {
		f.Excluded = "not used beside " + strings.ToLower(labelOf(other))
	} else if other := given(k.Excludes); other != "" {
		f.Excluded = "not beside " + strings.ToLower(labelOf(other))
	}
}

// defaults says what holds while a field is not given.
func (r *reader) defaults(f *Field, k *site.Key, at string) {
	f.Default, f.Absent = k.Default, k.Absent
	if k.Inherits != "" && strings.Count(k.Inherits, ".") == 1 {
		from := r.named[k.Inherits]
		f.Default, f.Absent = from.Default, from.Absent
		way, _ := steps(k.Inherits)
		if n := r.text.Root.Find(way...); n != nil {
			f.Default, f.Absent = r.shown(n), ""
		}
	}
	if f.Default == "" && k.Inherits == "" && r.derived[at] != "" {
		f.Absent = r.derived[at]
	}
}

// shown returns a value as a field shows it; "" of none.
func (r *reader) shown(n *edit.Node) string {
	switch {
	case n == nil:
		return ""
	case n.Kind == edit.Table || n.Kind == edit.List:
		return r.text.Written(n)
	}
	return n.Text
}

// uncertain reports whether a key is of a kind that may be given as a range.
func uncertain(k *site.Key) bool {
	return slices.Contains([]toml.Kind{toml.Whole, toml.Number, toml.Measured, toml.Time}, k.Kind)
}

// ranged reports whether a value is a range, as the reader finds it.
func ranged(k *site.Key, n *edit.Node) bool {
	if n.Kind != edit.Table || !uncertain(k) {
		return false
	}
	found := 0
	for _, key := range n.Keys {
		if rangeKey(key) {
			found++
		}
	}
	return found > 1 || found == 1 && n.ByValue()
}

// measure gives a field the number and the unit of a value.
func measure(f *Field, k *site.Key, text string) {
	f.Unit = unitOf(k, text)
	if text == "" {
		f.Unit = unitOf(k, k.Quantity.Example)
	}
	v, err := math.NaN(), error(nil)
	switch {
	case k.Quantity.Parse != nil && k.Kind != toml.List:
		v, err = k.Quantity.Parse(text)
	case k.Kind == toml.Whole || k.Kind == toml.Number:
		plain := strings.ReplaceAll(text, "_", "")
		if v, err = strconv.ParseFloat(plain, 64); err != nil {
			var i int64
			i, err = strconv.ParseInt(plain, 0, 64)
			v = float64(i)
		}
	}
	if err == nil && v-v == 0 {
		f.Number = &v
	}
}

// unitOf returns the unit of a value of a key; "" where it has none.
func unitOf(k *site.Key, text string) string {
	if k.Quantity.Name == toml.BitsPerError.Name {
		return k.Quantity.Units[0]
	}
	if k.Quantity.Parse == nil || k.Kind == toml.List {
		return ""
	}
	if u := unit.Of(text); !strings.HasPrefix(u, "in ") {
		return u
	}
	return ""
}

// kindOf returns what sort of field a key is.
func kindOf(k *site.Key) Kind {
	switch k.Kind {
	case toml.Measured:
		if k.Quantity.Bare {
			return Share
		}
		return Quantity
	case toml.Whole:
		return Integer
	case toml.Number:
		return Number
	case toml.YesNo:
		return Bool
	case toml.Word:
		return Word
	case toml.Date:
		return Date
	case toml.List, toml.Labels:
		return List
	case toml.Time:
		return Law
	case toml.SubTable:
		if len(k.Forms) > 0 {
			return Law
		}
		return Table
	case toml.Settings:
		return Table
	}
	return Text
}

// join puts a key behind the path of its table.
func join(table, name string) string {
	if table == "" {
		return name
	}
	return table + "." + name
}
