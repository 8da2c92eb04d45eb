//go:build !js

package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"arrayodds/cmd/desk/session"
)

func main() {
	if err := one(os.Args[1:], os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "desk:", err)
		os.Exit(1)
	}
}

// one answers one request, to try the engine of the page without a page.
func one(args []string, in io.Reader, out io.Writer) error {
	if len(args) == 0 {
		return fmt.Errorf("found no request; right would be desk OP [FILE]... with its arguments as JSON on standard input (the program itself runs in a page: build it with GOOS=js GOARCH=wasm)")
	}
	text, err := io.ReadAll(in)
	if err != nil {
		return err
	}
	files := map[string][]byte{}
	for _, path := range args[1:] {
		if files[filepath.Base(path)], err = os.ReadFile(path); err != nil {
			return err
		}
	}
	answer, _, err := session.New().Handle(context.Background(), args[0], text, files, nil)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(out, "%s\n", answer)
	return err
}
