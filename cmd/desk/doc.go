// Command desk is the engine as it lives in a page, compiled to WebAssembly for
// GOOS=js: the glue between the scripts of a worker and package session, and nothing else.
//
// Once it runs it sets one global value:
//
//	arrayodds.handle(op, args, files, tell) → Promise of {answer, files}
//	arrayodds.stop()
//
// op and args are those of [arrayodds/cmd/desk/session.Session.Handle], args and answer
// as texts of JSON; files are an object of Uint8Arrays by their names, or null, both ways.
// tell, where it is a function, is called with a text of JSON as the answer sharpens. The
// promise is rejected with an Error: named "AbortError" where the request was stopped, and
// any other for a defect of the program or of its caller. stop ends all requests that are
// under way.
//
// A worker has one thread, and while the engine computes no message comes in. So the
// context of a request lets the event loop have its turn now and then when it is asked
// whether it is done: by a message to itself, as browsers hold timers back.
package main
