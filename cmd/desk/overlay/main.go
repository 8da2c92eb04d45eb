// Overlay writes what go build's -overlay takes to leave methods out of templates:
//
//	go run ./cmd/desk/overlay DIR
//	go build -overlay DIR/overlay.json …
//
// A template may call any method of a value by its name, which it has at run time. So
// whatever links package text/template keeps every exported method of every type that it
// has, those of libraries too, used or not. The pages here call none: with the one call
// that finds methods out of the way, the linker drops what nobody calls. A template that
// calls a method then fails, as one does with a misspelt field. The help of the command
// line is made by such templates: the command itself is built without the overlay.
package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: overlay DIR")
		os.Exit(2)
	}
	if err := write(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "overlay:", err)
		os.Exit(1)
	}
}

// write writes exec.go and overlay.json into a directory, which is made where there is
// none.
func write(dir string) error {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return fmt.Errorf("go env GOROOT: %w", err)
	}
	from := filepath.Join(string(bytes.TrimSpace(root)), "src", "text", "template", "exec.go")
	source, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	changed, err := withoutMethods(source)
	if err != nil {
		return fmt.Errorf("%s: %w", from, err)
	}
	if dir, err = filepath.Abs(dir); err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	to := filepath.Join(dir, "exec.go")
	if err := os.WriteFile(to, changed, 0o644); err != nil {
		return err
	}
	overlay, err := json.Marshal(map[string]map[string]string{"Replace": {from: to}})
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, "overlay.json"), overlay, 0o644)
}

// What finds a method, and what finds none.
var (
	found = []byte("ptr.MethodByName(fieldName)")
	none  = []byte("(reflect.Value{})")
)

// withoutMethods returns the source of text/template's execution with no method found by
// its name.
func withoutMethods(source []byte) ([]byte, error) {
	if n := bytes.Count(source, found); n != 1 {
		return nil, fmt.Errorf("found %s %d times; right would be once, as Go 1.26 has it", found, n)
	}
	source = bytes.Replace(source, found, none, 1)
	if bytes.Contains(source, []byte(".MethodByName(")) {
		return nil, errors.New("found another call of MethodByName; right would be one, as Go 1.26 has it")
	}
	return source, nil
}
