// Package signals has what differs between systems of the signals that end the program,
// and of the one that a broken pipe sends.
package signals
