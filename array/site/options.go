package site

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"arrayodds/array"
	"arrayodds/array/nearest"
	"arrayodds/array/toml"
)

var optionsKey = Key{Path: "options", Kind: toml.Tables, Most: 12, Item: "option", Doc: "What money can buy beside drives; choose takes them or not."}

var optionKeys = []Key{
	{Path: "label", Kind: toml.Text, Required: true, Right: labelRight, Doc: "The option's name, no two alike."},
	{Path: "price", Kind: toml.Number, Min: "0", Max: "1e12", Default: "0", Doc: "What it costs once, in the site's currency."},
	{Path: "per_year", Kind: toml.Number, Min: "0", Max: "1e12", Default: "0", Doc: "What it costs each year of service."},
	{Path: "set", Kind: toml.Settings, Required: true, Right: `a table of paths and values, such as { "care.response" = "8 h" }`,
		Doc: "What it changes: paths as vary takes them, with the values that they then have."},
	{Path: "excludes", Kind: toml.Labels, Right: `a list of labels of other options, such as ["Technician next day"]`, Doc: "The options that cannot be taken beside it."},
}

// readOptions reads what money can buy beside drives. Whether the paths that they set are
// those of inputs is found where paths are known.
func readOptions(t *toml.Table) (all []array.Option) {
	named := labels{}
	var tables []*toml.Table
	for i, n := range t.Children("options") {
		var o array.Option
		c := t.Table(n, "", "options")
		c.Label(i+1, &o.Label)
		named.add(c, o.Label)
		c.Number("price", &o.Price)
		c.Number("per_year", &o.PerYear)
		readSet(c, &o)
		readExcludes(c, &o)
		c.Done()
		all, tables = append(all, o), append(tables, c)
	}
	for i, o := range all {
		var labels []string
		for j, other := range all {
			if j != i {
				labels = append(labels, other.Label)
			}
		}
		for _, label := range o.Excludes {
			if !slices.Contains(labels, label) {
				tables[i].Wrong("excludes", fmt.Sprintf("%q", label), "the label of another option", nearest.Name(label, labels))
			}
		}
	}
	return all
}

// readSet reads the paths and values of an option.
func readSet(c *toml.Table, o *array.Option) {
	k := c.Key("set")
	n := c.Ask("set")
	switch {
	case n == nil:
		return
	case n.Kind != toml.TableNode || len(n.Keys) == 0:
		c.WrongAt(n, "set", n.Shown(), k.Expected(), "")
		return
	}
	for _, path := range n.Keys {
		v := n.Under[path]
		s := array.OptionSetting{Path: path, Line: v.Line}
		switch v.Kind {
		case toml.StringNode:
			s.Value = strconv.Quote(v.Text)
			if strings.HasPrefix(strings.TrimSpace(v.Text), "{") { // a law, as it is typed
				s.Value = v.Text
			}
		case toml.IntegerNode, toml.FloatNode, toml.BoolNode:
			s.Value = v.Text
		case toml.BrokenNode:
			continue
		default:
			c.WrongAt(v, "set."+path, v.Shown(), "a text or a number; a law as a text, such as \"{ exponential = \\\"24 h\\\" }\"", "")
			continue
		}
		o.Set = append(o.Set, s)
	}
}

// readExcludes reads the options that cannot be taken beside one.
func readExcludes(c *toml.Table, o *array.Option) {
	n := c.Ask("excludes")
	if n == nil {
		return
	}
	k := c.Key("excludes")
	if n.Kind != toml.ListNode {
		c.WrongAt(n, "excludes", n.Shown(), k.Expected(), "")
		return
	}
	for _, item := range n.Items {
		if item.Kind != toml.StringNode {
			c.WrongAt(item, "excludes", item.Shown(), k.Expected(), "")
			continue
		}
		o.Excludes = append(o.Excludes, item.Text)
	}
}
