// Package plan writes the sheets of a plan: parts, bays, power, settings, acceptance and
// calendar, each a topic that begins on an A4 page of its own, and all of it one page on a
// screen.
//
// It has no script: it prints as it is seen. The front of the recorder is SVG that is made
// here. Boxes to tick and lines to write on are there for a pen. Nothing rests on colour
// alone: groups and batches have letters and numbers, hot spares are called so.
package plan
