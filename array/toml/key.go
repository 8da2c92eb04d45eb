package toml

import (
	"fmt"
	"strconv"
	"strings"

	"arrayodds/array/unit"
)

// Kind is what sort of value stands under a key.
type Kind string

// The kinds of value. In place of a Whole, Number, Measured, List or Time value, or
// of one in a List, a range may stand: { low, likely, high }.
const (
	Text     Kind = "text"          // of one line
	Word     Kind = "word"          // one of Words
	YesNo    Kind = "true or false" //
	Whole    Kind = "whole number"  //
	Number   Kind = "number"        // without a unit
	Measured Kind = "quantity"      // of the sort Quantity, with its unit
	Date     Kind = "date"          // a day, without quotes
	List     Kind = "list"          // of Most measured values at most
	Time     Kind = "time"          // a length of time, or the table of a law in one of Forms
	SubTable Kind = "table"         // written in one of Forms, if there are any
	Labels   Kind = "labels"        // a list of texts, each the label of something
	Settings Kind = "settings"      // a table of paths of other keys and what they then are
	Tables   Kind = "tables"        // Most tables at most, each under its [[key]]
)

// Key is one key of a file: all that the reader, a reference and a form to fill in
// have to know of it.
type Key struct {
	// Path is the keys on the way to it, without labels and numbers:
	// "drives.life.afr".
	Path string
	// Called is what people call it in a sentence: "yearly failure rate". Empty: as
	// the table that it is in.
	Called string
	Kind   Kind
	// Quantity is the sort of a Measured value, of what a List holds, and of a Time.
	Quantity Quantity
	// Min and Max are the least and the greatest value accepted, as they would be
	// written; of a List those of each of its values.
	Min, Max string
	// Default is what holds where the file has no such key, as it would be written,
	// without quotes. Where there is none, Absent says what is then the case; where
	// that is empty too, nothing is said of it.
	Default, Absent string
	Required        bool
	None            bool     // the word "none" may stand there
	Words           []string // the words that may stand there
	Other           string   // what may stand there beside the Words, in words of its own; empty: nothing
	Forms           []Form   // of a SubTable or Time: its table is written in one of these
	Most            int      // of Tables and a List
	Item            string   // what one of the Tables is called: "drive model"
	// LabelOf is the key of the Tables whose labels may stand there; empty: any text.
	LabelOf string
	// Inherits is the key whose value holds where this one is not given.
	Inherits string
	// Instead are the keys beside it that may stand in its place: where one of them
	// does, it is not required.
	Instead []string
	// Unless are the keys beside it where, with one of them, it is neither required
	// nor used.
	Unless []string
	// Excludes are the keys beside it that may not stand there too.
	Excludes []string
	// Missing is what an error says beside what would be right where neither it nor
	// one of Instead is given.
	Missing string
	// Right is what an error says would be right, where the rest does not say it.
	Right string
	Doc   string // what it is: one sentence

	low, high float64
	fallback  *Node
}

// Form is one way of writing a table: its keys exclude those of other forms.
type Form struct {
	Keys    []string // the keys of the table itself
	Example string   // `{ afr = "1.5 %" }`
}

// Name returns the key itself: the last of its path.
func (k *Key) Name() string { return k.Path[strings.LastIndex(k.Path, ".")+1:] }

// Bounds returns the least and the greatest value in the unit computed in.
func (k *Key) Bounds() (low, high float64) { return k.low, k.high }

// Limits returns the least and the greatest value as an error says them: "1 GB to
// 1 PB"; "" where there are none.
func (k *Key) Limits() string {
	switch {
	case k.Min == "":
		return ""
	case k.Kind != Number && k.Kind != Whole:
		return k.Min + " to " + k.Max
	case k.high == 1<<63: // what 2^63 − 1 is as a float64
		return unit.Digits(k.low, 15) + " to 2^63 − 1"
	}
	return unit.Digits(k.low, 15) + " to " + unit.Digits(k.high, 15)
}

// Expected returns what an error says would be right.
func (k *Key) Expected() string {
	or := ""
	if k.None {
		or = `, or "none"`
	}
	switch {
	case k.Right != "":
		return k.Right
	case k.Kind == Whole:
		return "a whole number, " + k.Limits()
	case k.Kind == Number:
		return "a number, " + k.Limits()
	case k.Kind == YesNo:
		return "true or false"
	case k.Kind == Date:
		return "a day, such as 2027-03-31"
	case k.Kind == Measured:
		return k.quoted() + or
	case k.Kind == Time:
		return k.quoted() + ", or one of " + k.examples() + or
	case k.Kind == Word && len(k.Words) == 2:
		return fmt.Sprintf("%q or %q", k.Words[0], k.Words[1])
	case k.Kind == Word && k.Other != "":
		return "one of " + strings.Join(k.Words, ", ") + ", or " + k.Other
	case k.Kind == Word:
		return "one of " + strings.Join(k.Words, ", ")
	case k.Kind == SubTable && len(k.Forms) > 0:
		return "one of " + k.examples()
	}
	return "a " + string(k.Kind)
}

// quoted returns what would be right of a text with a unit.
func (k *Key) quoted() string {
	return fmt.Sprintf("%s in quotes, such as %q (%s)", k.Quantity.Name, k.Quantity.Example, k.Limits())
}

func (k *Key) examples() string {
	var all []string
	for _, f := range k.Forms {
		all = append(all, f.Example)
	}
	return strings.Join(all, ", ")
}

// number returns a bound as the reader computes with it. It is the program's own text.
func (k *Key) number(written string) float64 {
	if written == "" {
		return 0
	}
	parse := k.Quantity.Parse
	if parse == nil {
		parse = func(s string) (float64, error) { return strconv.ParseFloat(s, 64) }
	}
	v, err := parse(written)
	if err != nil {
		panic(fmt.Sprintf("bound %q of %s: %v", written, k.Path, err))
	}
	return v
}

// compile works out what the reader needs of a key.
func (k *Key) compile() {
	k.low, k.high = k.number(k.Min), k.number(k.Max)
	if k.Default == "" {
		return
	}
	k.fallback = &Node{Kind: StringNode, Text: k.Default}
	switch k.Kind {
	case Whole:
		k.fallback.Kind = IntegerNode
	case Number:
		k.fallback.Kind = FloatNode
	case YesNo:
		k.fallback.Kind = BoolNode
	}
}
