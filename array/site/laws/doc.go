// Package laws reads the laws of a site file: by which drives fail, and how long a time is
// that may be a matter of chance. Each way of writing a law is a row of a table, with its
// keys and the function that reads it: a new law is a row of lifeForms in life.go or of
// timeForms in time.go.
package laws
