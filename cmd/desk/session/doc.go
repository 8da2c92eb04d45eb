// Package session answers what a page asks of the engine that lives in it: one
// [Session.Handle] for all, JSON and files in, JSON and files out. It knows nothing of
// browsers, so that it is tested like any other package; package desk above it is the glue.
//
// # Requests
//
// Every request about a site has its whole file as text, and in files what it names
// beside it, such as a schedule, by the names that it uses. Options of the run come from
// the file. Where something is wrong with what the user gave, the answer is
// {"errors": [{"line", "path", "text"}]}; line and path are left out where there is none.
// Figures that are not known are null, and chances are {value, low, high}.
//
//	read       text → form (see package form), errors, title, sizes of the choices, demand
//	           in sentences, wanted (files that the site names and that did not come)
//	edit       text, change {op, path, value} → text after it, and all that read answers
//	starters   → invented sites to begin with: name, title, says, text
//	paths      text → paths of inputs that one may want to vary
//	simulate   text, choice (place) → choice, chance, odds, interval, trials, share, work,
//	           warnings; tells the same, but for work and warnings, as it sharpens; file
//	           "result"
//	replicate  text, replicate (0 to 7); files result0, result1, ... of all choices →
//	           replicate; tells {share}; file "replicate"
//	compare    text; files result0, ..., replicate0, ... → see the type compared; what is
//	           wanting of the parts is worked out; tells {share}
//	pair       a, b (places) → points, safer (place, −1: neither), times, share, cost; of
//	           the last comparison
//	curve      text, path (of a field, or as vary takes it), points → the values around the
//	           present one and every choice at them: see the type curved
//	size       text, bays, spares → points, suggestions, text (of the file with them)
//	choose     text, bays, spares → points, text (of the file with the designs)
//	vary       text, over, and, points, resize, against, target, asSafeAs, choices → points
//	rank       text, thorough, choices → points
//	replay     text, choice, lives, onlyLosses → points
//	lesson     text, choice, questions, withoutAnswers → points
//	fit        until, name; file record → points, laws
//	plan       text, choice → points
//	example    text, choice → state, the text of a state file to begin with
//	now        text, choice, state (the text of a state file) → points; with drill, and no
//	           state, a state to practise on
//	formats    of (op) → formats that the last result of that op can be written in
//	output     of (op), format (html, sheet, json, csv, xlsx) → file "file", of the last
//	           result of that op
//
// The arguments from size on are the flags of the commands: a number may come as one or as
// it is typed, a choice goes by its label, and the options of the run may stand there too
// (seed, accuracy, maxTrials). Long answers tell {share}.
//
// A comparison in parts, on several workers: simulate each choice; give all results to
// each of the replicates; give results and replicates to compare. Whichever way it is
// worked out, the digits are those of the command.
//
// [NewFirst] is for whoever writes the page: what is to stand there before the engine runs.
package session
