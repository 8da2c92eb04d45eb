// Package schema has the JSON schema (draft 2020-12) of what the commands write with
// --json, in format 1: schema.json, which arrayodds help schema prints.
//
// The schema of a command's file is #/$defs/ and the command's name, and drill for that
// of now --drill; the whole takes any of them. What it requires is what a program that
// reads these files may rely on: which keys are always there, what each is, and where it
// may be null. Other keys may stand beside them, since keys may be added; the tests of
// package export hold that the program writes none that the schema does not name.
//
// A new kind of file is an entry of $defs and a line of anyOf.
package schema

import _ "embed" // the schema is a file

// Text is the schema as a file.
//
//go:embed schema.json
var Text string
