// Package state reads the state of one array from a file: which drives are down, how far
// a rebuild is, when somebody comes. It is strict TOML as a site file is, with a table of
// keys of its own, and all that is wrong is said at once, each with its place.
//
// [Read] reads a file beside a site; [Example] writes one to begin with, and [Write] one
// of a state.
package state
