// Package starter has site files to begin with. [Text] is the one that the program
// writes: for each figure the question to ask, and where the answer is found. Settings
// that most sites do without are in it and off, by a # before their key. [Sites] has it
// and others, of shops and of larger places.
//
// The sites are invented, and their figures are of the size that the trade meets.
package starter

import _ "embed" // the file

//go:embed starter.toml
var text string

// Text returns the file with a question for each figure.
func Text() string { return text }
