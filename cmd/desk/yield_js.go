package main

import (
	"context"
	"sync"
	"syscall/js"
	"time"
)

// pause is how long the engine computes before the event loop has its turn.
const pause = 8 * time.Millisecond

// yielding is a context that, when it is asked for its error, lets the event loop have
// its turn now and then, so that a message can end it.
type yielding struct {
	context.Context
	last time.Time
}

func newYielding(ctx context.Context) *yielding { return &yielding{ctx, time.Now()} }

// Err returns the error of the context, after a turn of the event loop if it is time.
func (y *yielding) Err() error {
	if time.Since(y.last) >= pause {
		channel().turn()
		y.last = time.Now()
	}
	return y.Context.Err()
}

// messages is a channel on which the program sends messages to itself.
type messages struct {
	port js.Value
	came chan struct{} // a value for each message
}

// channel returns the channel, which is made once.
var channel = sync.OnceValue(func() messages {
	const atOnce = 1 << 10 // more than there are requests that wait
	m := messages{came: make(chan struct{}, atOnce)}
	both := js.Global().Get("MessageChannel").New()
	both.Get("port1").Set("onmessage", js.FuncOf(func(js.Value, []js.Value) any {
		m.came <- struct{}{}
		return nil
	}))
	m.port = both.Get("port2")
	return m
})

// turn lets the event loop do what came in before now.
func (m messages) turn() {
	m.port.Call("postMessage", js.Null())
	<-m.came
}
