// Package form has a site file as the fields of a form, and changes of the form as edits
// of the file's text. It is for a page on which a site is typed, and knows nothing of
// pages: a [Form] and a [Change] are plain values with JSON of their own.
//
//	f, source, errs := form.Read(text, "site.toml")
//	text, err := form.Edit(text, form.Change{Op: form.Set, Path: "care.response", Value: "8 h"})
//
// The file's text is all there is: a form is read from it anew after each change, so that
// text and fields can both be edited, and a text that was kept undoes a change.
//
// # Where fields come from
//
// From the reader's table of keys, [site.Keys], and from nowhere else: what a key takes,
// its bounds, default, words, forms and what it excludes. A new key, law or layout is a
// field without a line here. A field's label is made of its key's name; words that are
// not written as they stand, such as AFR, are in label.go.
//
// A [Section] is a table or a list of tables. Those at the top have all their fields
// while the file has no such table, since setting the first makes it; the care and the
// recorder of a choice have none until they are added. A [Field] that is a law has the
// ways of writing it with an example each, and the fields of the way that is chosen; so
// has a table that need not be there. Setting the law to an example chooses it.
//
// A default is what the file would have to say for what holds without it: the key's own,
// the site's for what a choice inherits, and the number that stands for a missing label.
// What is no value, such as an estimated bit rate, is under Absent.
//
// # Errors
//
// They are the reader's, in its words, without the file's name and the key that the
// field shows. Each stands at the field, item or section that it is at, found by its key
// and line; those of a schedule at the field that names it. Whatever has no place, such
// as a header without its bracket, is listed apart. A line with a mistake that does not
// hide others is a field with its text as it is, and setting it mends the line.
//
// # Paths
//
// A path is keys and, for items of lists, numbers from 0, with points between:
// "choices.0.care.response". A key that could be taken for something else is quoted, as
// by strconv. Paths are those of the text they were read from: after an item is
// added, removed or moved those behind it have others.
//
// # Changes
//
// [Set] writes what is typed as the key's kind has it: texts and quantities in quotes,
// numbers, dates, true and false without, tables and lists as they are typed where they
// are TOML. What can be no value is written as a text in quotes, whatever it is, so that
// the reader says at the field what is wrong; it never breaks the file. What is blank is
// removed. Keys and tables that are not there are put in the order of the table of keys;
// a new table of a law is written in braces, one of a section under a header.
//
// A new label of a drive, or of whatever else is named by its label, is written wherever
// the old one stood: in choices, in what an option excludes and in the paths that it
// sets. Where two have the old label, or another has the new one, nothing is renamed.
//
// [Add] puts in what is required, with examples that are right by themselves, and [Copy]
// gives the copy a label of its own.
//
// All else of the file stays byte for byte, comments too; see package edit for what
// belongs together. An error of [Edit] says that there is no such change.
package form
