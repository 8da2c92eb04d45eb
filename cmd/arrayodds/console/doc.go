// Package console is the streams that the program writes to as people see them: whether
// they could be written to, whether they are terminals, and bars of progress on those
// that are.
package console
