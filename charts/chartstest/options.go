package chartstest

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"arrayodds/charts/draw"
)

// Options are what is drawn, as the page's script reads it.
type Options struct {
	X, Y   Axis
	Series []Series
}

// Axis is a scale or rows.
type Axis struct {
	Name     string
	Min, Max *float64 // nil: the chart script chooses
	Interval float64  // between ticks at least; 0: the chart script chooses
	Words    string   // the function that makes words of ticks
	Rows     []string
	Ticks    []draw.Tick
}

// Series are items that are drawn alike.
type Series struct {
	Kind   string // a renderer's name, or line or scatter
	Name   string
	Symbol string
	Colour string // of a line or of what a renderer draws; of a symbol's outline
	Hollow bool   // of a symbol
	Stroke string
	Step   string
	Items  []Item
}

// Item is a point, a whisker or whatever else is drawn.
type Item struct {
	Value  []float64
	Tip    []string
	Label  string
	Offset []int
	Colour string // its own; empty: the series' one
}

// Decode reads the options of a chart. The chart must be drawn.
func Decode(t testing.TB, c draw.Chart) Options {
	t.Helper()
	if c.Absent != "" {
		t.Fatalf("%s is not drawn: %s", c.ID, c.Absent)
	}
	type axis struct {
		Type        string
		Name        string
		Min, Max    *float64
		MaxInterval float64
		Data        json.RawMessage
		AxisLabel   struct{ Formatter string }
	}
	var raw struct {
		XAxis, YAxis []axis
		Series       []struct {
			Name, Type, RenderItem, Symbol, Step string
			ItemStyle                            struct{ Color, BorderColor string }
			LineStyle                            struct{ Color, Type string }
			Data                                 []struct {
				Value        []float64
				Tip          []string
				Label        struct{ Formatter string }
				SymbolOffset []int
				ItemStyle    struct{ Color string }
			}
		}
	}
	if err := json.Unmarshal(c.Options, &raw); err != nil {
		t.Fatalf("options of %s: %v", c.ID, err)
	}
	decode := func(a axis) Axis {
		out := Axis{Name: a.Name, Min: a.Min, Max: a.Max, Interval: a.MaxInterval, Words: a.AxisLabel.Formatter}
		var into any = &out.Ticks
		if a.Type == "category" {
			into = &out.Rows
		}
		if a.Data != nil {
			if err := json.Unmarshal(a.Data, into); err != nil {
				t.Fatalf("an axis of %s: %v", c.ID, err)
			}
		}
		return out
	}
	o := Options{X: decode(raw.XAxis[0]), Y: decode(raw.YAxis[0])}
	for _, r := range raw.Series {
		s := Series{Kind: r.Type, Name: r.Name, Symbol: r.Symbol, Colour: r.ItemStyle.Color, Stroke: r.LineStyle.Type, Step: r.Step}
		switch r.Type {
		case "custom":
			s.Kind = r.RenderItem
		case "line":
			s.Colour = r.LineStyle.Color
		case "scatter":
			s.Colour, s.Hollow = r.ItemStyle.BorderColor, r.ItemStyle.Color == draw.Paper
		}
		for _, d := range r.Data {
			s.Items = append(s.Items, Item{Value: d.Value, Tip: d.Tip, Label: d.Label.Formatter, Offset: d.SymbolOffset, Colour: d.ItemStyle.Color})
		}
		o.Series = append(o.Series, s)
	}
	return o
}

// All returns the series of a kind and name; an empty name is any.
func (o Options) All(kind, name string) []Series {
	var all []Series
	for _, s := range o.Series {
		if s.Kind == kind && (name == "" || s.Name == name) {
			all = append(all, s)
		}
	}
	return all
}

// One returns the one series of a kind and name.
func (o Options) One(t testing.TB, kind, name string) Series {
	t.Helper()
	all := o.All(kind, name)
	if len(all) != 1 {
		t.Fatalf("%d series of kind %q and name %q, want one", len(all), kind, name)
	}
	return all[0]
}

// CheckSpan holds an axis against its ends and the distance of its ticks, 0 where the
// chart script chooses that.
func (a Axis) CheckSpan(t testing.TB, low, high, interval float64) {
	t.Helper()
	if a.Min == nil || a.Max == nil {
		t.Fatalf("the axis %q lacks an end", a.Name)
	}
	CheckNear(t, "the axis "+a.Name, []float64{*a.Min, *a.Max, a.Interval}, low, high, interval)
}

// CheckItems holds the values of all items of a series against those wanted.
func (s Series) CheckItems(t testing.TB, want ...[]float64) {
	t.Helper()
	if len(s.Items) != len(want) {
		t.Errorf("%s %q has %d items, want %d", s.Kind, s.Name, len(s.Items), len(want))
		return
	}
	for i, item := range s.Items {
		CheckNear(t, s.Kind+" "+s.Name, item.Value, want[i]...)
	}
}

// CheckTip holds the lines of an item's tooltip against those wanted, with plain blanks.
func (i Item) CheckTip(t testing.TB, want ...string) {
	t.Helper()
	var got []string
	for _, line := range i.Tip {
		got = append(got, plainBlanks.Replace(line))
	}
	if !slices.Equal(got, want) {
		t.Errorf("at %v the tooltip says %q, want %q", i.Value, got, want)
	}
}

var plainBlanks = strings.NewReplacer("\u202f", " ", "\u00a0", " ")

// CheckNear holds values against those wanted, to the six decimals that are drawn.
func CheckNear(t testing.TB, what string, got []float64, want ...float64) {
	t.Helper()
	near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-6 }
	if !slices.EqualFunc(got, want, near) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}
