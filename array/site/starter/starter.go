// Package starter has a site file to begin with: for each figure the question to ask,
// and where the answer is found. Its site is invented, and its figures are of the size
// that the trade meets. Settings that most sites do without are in it and off, by a #
// before their key.
package starter

import _ "embed" // the file

//go:embed starter.toml
var text string

// Text returns the file.
func Text() string { return text }
