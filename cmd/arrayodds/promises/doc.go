// Package promises says what a user of arrayodds may rely on, what not, and how each may
// change. arrayodds help promises prints this page, from this file.
//
// # The site file
//
// A key keeps its name, its unit and its meaning, and what holds where it is left out
// stays the same. Keys are added, always so that a file without them means what it meant.
// So a file that was read is read by every later version, unless it had an error that
// an earlier one did not see. Where a key must go or change all the same, the old form
// is an error that names the new one: it never comes to mean something else in silence.
// arrayodds help site lists all keys. The same holds for the state file of now, and for
// the columns of records and of camera schedules.
//
// # Commands and flags
//
// A command or flag keeps its name and its meaning, and what it does where it is left
// out. Both may be added. A flag that goes is an error that says what stands in its place.
//
// # Exit status
//
//   - 0: all is done, and every file that was asked for is there, whole.
//   - 1: something failed: a full disk, an interrupt, a defect of the program.
//   - 2: the input or the command line is wrong; standard error says where, and lists
//     all that was found.
//
// A run that is killed has the status that the system gives. One that finds no memory is
// ended by Go's runtime, with its own words ("fatal error") and status 2 or that of an
// abort; it wrote nothing. No other status is used, and a later version will give these
// three no other meaning.
//
// # Files
//
// On 1 and 2 no file is written or changed, and where one of several files cannot be
// written none is. A reader sees each file as it was or as it is to be, never a part of
// it. Of a run that is killed all files are old or all new, on Linux and macOS at the
// latest after the next run that writes there; package atomicfile says what a killed run
// may leave on other systems. Inputs are never written to.
//
// # JSON
//
// Every file has "format": 1 in it. In format 1 a key keeps its name, its type, its unit
// and its meaning, and where it stands; a key that may be null is so where the figure is
// not known. Keys may be added, so read them by name and pass over those that you do not
// know. arrayodds help schema prints the schema (JSON Schema, draft 2020-12), which the
// tests hold against every kind of file. Anything else makes format 2, which comes with a
// schema of its own. Sentences in the JSON are for people, and may change.
//
// # CSV and workbooks
//
// A column of the CSV keeps its name, which ends in its unit where it has one, and its
// meaning. Columns may be added at any place: read them by name. Numbers have a decimal
// point, and what is not known is an empty cell. Of a workbook (--xlsx) the names of the
// sheets stay; its headings are for people.
//
// # Digits
//
// The same version, site, seed and flags give the same bytes of JSON, CSV and pages, for
// any number of workers (--workers), at any time and in any time zone. No date and no
// clock goes into a result but that of a state file. It does not depend on the processor,
// and the desk, in a browser, gives the command's digits. That holds of the programs of a
// release, which are built without fused products; of one that is built otherwise for
// arm64, or with GOAMD64=v3, the last digits may differ.
//
// Another version may give other digits from one seed, as it draws other random numbers
// or draws them in another order. The new figures then lie as far from the old ones as
// their intervals allow; where a figure itself was wrong, and is mended, they need not.
// A change of either kind is a commit of its own, which says what changed and why;
// arrayodds --version names the commit. A change that nothing requires does not happen.
//
// # Intervals
//
// Every figure that is simulated has a 95 % interval, and says so where it should not be
// trusted. The file DEVELOPERS.md of the source has how often intervals hold the true figure, by output.
//
// # What is not promised
//
// The words, the order and the look of tables, pages, sheets and errors; the charts; how
// long a run takes; how many trials it needs for an accuracy; the Go packages.
package promises
