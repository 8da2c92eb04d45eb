package main

import (
	"context"
	"errors"
	"sync"
	"syscall/js"

	"arrayodds/cmd/desk/session"
)

func main() {
	g := &glue{session: session.New(), running: map[int]context.CancelFunc{}}
	api := js.Global().Get("Object").New()
	api.Set("handle", js.FuncOf(func(_ js.Value, args []js.Value) any { return g.handle(args) }))
	api.Set("stop", js.FuncOf(func(js.Value, []js.Value) any {
		g.stop()
		return nil
	}))
	js.Global().Set("arrayodds", api)
	select {}
}

// glue hands requests on and answers back.
type glue struct {
	session *session.Session
	mu      sync.Mutex
	running map[int]context.CancelFunc // requests under way
	begun   int
}

// handle begins a request and returns the promise of its answer. The request runs in a
// goroutine of its own: a call from script must not wait for the event loop.
func (g *glue) handle(args []js.Value) js.Value {
	for len(args) < 4 {
		args = append(args, js.Undefined())
	}
	op, text, files := args[0].String(), []byte(args[1].String()), toGo(args[2])
	var tell func([]byte)
	if args[3].Type() == js.TypeFunction {
		tell = func(text []byte) { args[3].Invoke(string(text)) }
	}
	ctx, end := g.begin()
	var work js.Func
	work = js.FuncOf(func(_ js.Value, promise []js.Value) any {
		resolve, reject := promise[0], promise[1]
		go func() {
			defer work.Release()
			defer end()
			answer, out, err := g.session.Handle(ctx, op, text, files, tell)
			if err != nil {
				e := js.Global().Get("Error").New(err.Error())
				if errors.Is(err, context.Canceled) {
					e.Set("name", "AbortError")
				}
				reject.Invoke(e)
				return
			}
			done := js.Global().Get("Object").New()
			done.Set("answer", string(answer))
			done.Set("files", toJS(out))
			resolve.Invoke(done)
		}()
		return nil
	})
	return js.Global().Get("Promise").New(work)
}

// begin returns the context of a request, and what is to be called at its end.
func (g *glue) begin() (context.Context, func()) {
	g.mu.Lock()
	defer g.mu.Unlock()
	ctx, cancel := context.WithCancel(context.Background())
	g.begun++
	n := g.begun
	g.running[n] = cancel
	return newYielding(ctx), func() {
		cancel()
		g.mu.Lock()
		defer g.mu.Unlock()
		delete(g.running, n)
	}
}

// stop ends all requests that are under way.
func (g *glue) stop() {
	g.mu.Lock()
	defer g.mu.Unlock()
	for _, cancel := range g.running {
		cancel()
	}
}

// toGo copies files out of an object of Uint8Arrays.
func toGo(files js.Value) map[string][]byte {
	all := map[string][]byte{}
	if files.Type() != js.TypeObject {
		return all
	}
	names := js.Global().Get("Object").Call("keys", files)
	for i := range names.Length() {
		name := names.Index(i).String()
		array := files.Get(name)
		if array.Type() != js.TypeObject {
			continue // a panic here would end the engine
		}
		data := make([]byte, array.Length())
		js.CopyBytesToGo(data, array)
		all[name] = data
	}
	return all
}

// toJS copies files into an object of Uint8Arrays.
func toJS(files map[string][]byte) js.Value {
	all := js.Global().Get("Object").New()
	for name, data := range files {
		array := js.Global().Get("Uint8Array").New(len(data))
		js.CopyBytesToJS(array, data)
		all.Set(name, array)
	}
	return all
}
