// Package edit changes values in the text of a TOML file and leaves all else as it
// is: comments, order, blank lines, ends of lines. It knows nothing of what a file is
// about.
//
// [Parse] reads a [Text], which knows the bytes of every value. Its methods each
// return the bytes of another text:
//
//   - [Text.Set] puts a value in the place of another, or makes the key and the tables
//     on the way to it;
//   - [Text.Remove] takes away a key, a table or an item of a list;
//   - [Text.Add], [Text.Copy] and [Text.Move] add an item to a list of tables, copy it,
//     and change its place;
//   - [Text.Apply] puts other bytes in the place of some.
//
// Values are handed in as TOML ([toml.Quote] quotes a text), and must be right.
//
// # What belongs together
//
// A key belongs to its line with the comment behind it. A table or item with a header
// belongs to the comment block directly above, to all that stands in it down to the next
// header, its sub-tables among that, and to comments directly below the last of it
// where a blank line or the end of the file follows. A comment block at the very top of
// a file belongs to the file.
//
// # Mistakes
//
// A line with a mistake of syntax that does not hide others is a value of kind
// [Broken], which can be set and removed. Where the rest of a text cannot be read, it is
// [Text.Cut], and what was read of it can be looked at but not changed.
package edit
