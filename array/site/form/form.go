package form

// Form is a site file as the sections of a form, in the order of the table of keys.
type Form struct {
	Sections []Section `json:"sections"`
	// Errors are those that stand at no field.
	Errors []Mistake `json:"errors,omitempty"`
	// Cut is the line from which on the text cannot be read; 0: it was read to its end.
	// Nothing of it can be changed but by hand.
	Cut int `json:"cut,omitempty"`
}

// Mistake is an error of the file: its line, 0 where it has none, and what is said of it.
type Mistake struct {
	Line int    `json:"line,omitempty"`
	Text string `json:"text"`
}

// Section is a table of the file, or a list of tables.
type Section struct {
	Path  string `json:"path"` // "" of the keys at the top
	Title string `json:"title"`
	Doc   string `json:"doc"`
	// One is what an item is called: "drive model".
	One      string `json:"one,omitempty"`
	Repeats  bool   `json:"repeats,omitempty"`
	Most     int    `json:"most,omitempty"`
	Absent   bool   `json:"absent,omitempty"`
	Required bool   `json:"required,omitempty"`
	// Else is what is the case while it is absent; empty: nothing is said of it.
	Else string `json:"else,omitempty"`
	// Source is what may stand in place of the items: the path of a schedule.
	Source *Field `json:"source,omitempty"`
	// Items are the tables of a list; else the one table, with all fields while it is
	// absent too, save where it lies in an item.
	Items []Item `json:"items"`
	Error string `json:"error,omitempty"`
}

// Item is one table: of a list, or the section's own.
type Item struct {
	Path   string  `json:"path"`
	Label  string  `json:"label,omitempty"`
	Line   int     `json:"line,omitempty"`
	Fields []Field `json:"fields"`
	// Sections are what a choice can have of its own in place of the site's.
	Sections []Section `json:"sections,omitempty"`
	Error    string    `json:"error,omitempty"`
}

// Field is a key.
type Field struct {
	Path  string `json:"path"`
	Name  string `json:"name"`
	Label string `json:"label"`
	Doc   string `json:"doc,omitempty"`
	Takes string `json:"takes,omitempty"`
	Kind  Kind   `json:"kind"`
	// Unit is that of the value or, while there is none, a usual one; Units are the
	// usual ones, the smallest first.
	Unit  string   `json:"unit,omitempty"`
	Units []string `json:"units,omitempty"`
	// Text is the value as it is written, a text without its quotes; tables and lists in
	// TOML.
	Text  string `json:"text"`
	Given bool   `json:"given"`
	// Default is what holds while it is not given, as it would be written; Absent says
	// what is then the case where that is no value. Both may be empty.
	Default  string `json:"default,omitempty"`
	Absent   string `json:"absent,omitempty"`
	Required bool   `json:"required,omitempty"`
	// Excluded is why it has no place beside another key that is given; empty: it has.
	Excluded string `json:"excluded,omitempty"`
	// Words may stand there; with Other, what may stand there too, in words of its own.
	Words []string `json:"words,omitempty"`
	Other string   `json:"other,omitempty"`
	// Forms are the ways in which a law, or a table that need not be there, can be
	// written; Form is the one that is, by its place; nil: none.
	Forms []Way `json:"forms,omitempty"`
	Form  *int  `json:"form,omitempty"`
	// Fields are the keys of the form that is chosen, or of an inner table.
	Fields []Field `json:"fields,omitempty"`
	// Range is the value where it is given as a range; the rest is then of the likely one.
	Range *Range `json:"range,omitempty"`
	// MayRange reports whether a range may stand there; such a value can be varied too.
	MayRange bool `json:"mayRange"`
	// Number is the value, or its default, in the unit computed in, and Low and High are
	// its bounds; nil where it is no number.
	Number *float64 `json:"number,omitempty"`
	Low    *float64 `json:"low,omitempty"`
	High   *float64 `json:"high,omitempty"`
	Error  string   `json:"error,omitempty"`
	Line   int      `json:"line,omitempty"`
}

// Way is one way of writing a table: Text is an example of it.
type Way struct {
	Name  string `json:"name"`
	Title string `json:"title"`
	Doc   string `json:"doc,omitempty"`
	Text  string `json:"text"`
}

// Range is what a value is at the least, likely and at the most, each as it is written.
type Range struct {
	Low    string `json:"low"`
	Likely string `json:"likely"`
	High   string `json:"high"`
}

// Kind is what sort of field it is.
type Kind string

// The kinds of field. An Unknown key is not in the table of keys.
const (
	Quantity Kind = "quantity"
	Share    Kind = "share"
	Number   Kind = "number"
	Integer  Kind = "integer"
	Bool     Kind = "bool"
	Text     Kind = "text"
	Word     Kind = "word"
	Date     Kind = "date"
	Table    Kind = "table"
	List     Kind = "list"
	Law      Kind = "law"
	Unknown  Kind = "unknown"
)
