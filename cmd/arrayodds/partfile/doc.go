// Package partfile reads and writes the files of parts of a question, and says which of
// them belong together and which are wanting.
//
// # The file
//
// The first line is "arrayodds part 1 sha256 SUM LENGTH": the format, and the checksum and
// the number of the bytes that follow it (the checksum covers the format and the number
// too). What follows is gzip'd JSON, a [Part]: the question with the site file and the
// files that it names, whole; the program that asked it; and what was found, as package
// divide codes it. So a merge needs nothing but parts, and a part of which a byte was
// changed or lost is known to be damaged.
package partfile
