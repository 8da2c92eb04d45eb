package form

import (
	"strings"

	"arrayodds/array/pattern"

	"arrayodds/array/site"
	"arrayodds/array/toml"
)

var inQuotes = pattern.Of(`"[^"]+"`)

// example returns a value of a key in TOML that the reader takes.
func (t *keyTable) example(k *site.Key) string {
	switch k.Kind {
	case toml.SubTable, toml.Time:
		switch {
		case k.Kind == toml.Time:
			return toml.Quote(k.Quantity.Example)
		case len(k.Forms) > 0:
			return k.Forms[0].Example
		}
		return t.exampleTable(k.Path)
	case toml.Word:
		return toml.Quote(k.Words[0])
	case toml.YesNo:
		return "true"
	case toml.Whole, toml.Number:
		return k.Min
	case toml.Measured:
		return toml.Quote(k.Quantity.Example)
	case toml.List:
		return "[" + toml.Quote(k.Quantity.Example) + "]"
	case toml.Labels:
		return "[]"
	case toml.Date:
		return "2030-12-31"
	case toml.Settings:
		if at := strings.Index(k.Right, "{"); at >= 0 {
			return k.Right[at:]
		}
	}
	if quoted := inQuotes().FindString(k.Right); quoted != "" {
		return quoted
	}
	return `"text"`
}

// exampleTable returns a table with all that is required of it.
func (t *keyTable) exampleTable(table string) string {
	var all []string
	for _, k := range t.in[table] {
		if k.Required {
			all = append(all, toml.QuoteKey(k.Name())+" = "+t.example(k))
		}
	}
	if len(all) == 0 {
		return "{ }"
	}
	return "{ " + strings.Join(all, ", ") + " }"
}

// fixed is the name of the form of a time that is no law.
const fixed = "fixed"

// forms returns the ways of writing a law, or a table that need not be there.
func (t *keyTable) forms(k *site.Key) (all []Way) {
	if k.Kind == toml.Time {
		text := k.Quantity.Example
		if k.Default != "" && k.Default != "none" {
			text = k.Default
		}
		all = append(all, Way{Name: fixed, Title: "Fixed time", Doc: "Always as long.", Text: text})
	}
	for _, f := range k.Forms {
		var labels []string
		for _, name := range f.Keys {
			if own := t.named[k.Path+"."+name]; own.Required || len(f.Keys) == 1 {
				labels = append(labels, labelOf(name))
			}
		}
		for i := range labels[1:] {
			labels[i+1] = strings.ToLower(labels[i+1][:1]) + labels[i+1][1:]
		}
		all = append(all, Way{Name: f.Keys[0], Title: strings.Join(labels, " and "), Doc: t.named[k.Path+"."+f.Keys[0]].Doc, Text: f.Example})
	}
	if k.Kind == toml.SubTable && len(k.Forms) == 0 && !section(k) && t.needed(k.Path) {
		all = append(all, Way{Name: "given", Title: "Given", Doc: k.Doc, Text: t.exampleTable(k.Path)})
	}
	return all
}
