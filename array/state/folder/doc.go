// Package folder reads a folder of many arrays: their states, and the site files that
// those belong to.
//
// # Which files are read
//
// A file whose name ends in ".state.toml" is the state of one array, as package state
// reads it. The folder is walked with all folders in it, but for those whose names begin
// with a dot; other files are left alone. The site file of DIR/NAME.state.toml is the
// first of these that there is:
//
//   - the one that the state names, site = "PATH", by its path from DIR;
//   - DIR/NAME.toml;
//   - DIR/site.toml.
//
// So one site file can serve many states, and is read once. A state says by its choice
// which of the site's choices was built, where the site has more than one.
//
// # What is refused
//
// Nothing outside of the folder is read: neither a path nor a link leads out of it. A
// link to a folder within is not followed, as its states are met where they stand. All
// that is wrong with all files is said at once ([Errors]).
package folder
