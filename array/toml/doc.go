// Package toml reads TOML strictly and with places: every value knows its line,
// every key that nobody asked for is an error, and all errors come at once, each
// with its place, what was found and what would be right. It knows nothing of what
// a file is about.
//
// [Parse] makes a [Document], a tree of [Node]. What may stand in it is a [Schema],
// a table with a [Key] for each key. A [Reader] goes through the tree: its [Table]
// has a method for each sort of value ([Table.Number], [Table.Quantity],
// [Table.Text] and more), which reads a key or its default, reports what is wrong
// with it, and notes what it was. [Table.Done] reports the keys that are not known
// and those that are missing.
//
// A range, { low, likely, high }, may stand in place of any number or length of
// time once [Document.FindRanges] has put its likely value there.
//
// An [Overlay] makes another tree of one that stays as it is, with other values at
// some places; it can be read like the first.
package toml
