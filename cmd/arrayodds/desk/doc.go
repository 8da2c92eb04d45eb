// Package desk writes the desk: one HTML page in which the whole program lives. It
// holds the engine, which is cmd/desk compiled to WebAssembly, packed and put into
// dist by make build, and kept out of git; a page that has neither server nor network
// runs it in workers.
//
// # What stands where
//
//   - page.html and style.css: the page;
//   - worker.js: what a worker runs, behind Go's own wasm_exec.js;
//   - scripts: the page's own script, a file for each thing that it does; they are
//     joined in the order of [Write]'s list, and share their names.
//
// At its end stand the licences of all that is in it, by package licences.
//
// The page knows nothing of keys, layouts or laws: its form is what package form says of
// the file's text, and its figures and sentences are what package session answers.
//
// # Workers
//
// One worker, front, reads and edits the text and puts results together; it never
// simulates, so that typing is answered at once. Others, as many as there are
// processors, simulate: one choice each, the longest first, then the parts of the
// doubt. A change ends what still runs for the text before it. What the parts are put
// together to has the digits of the command, since they are the parts that the command
// adds up.
package desk
