// Package licences holds the licences of all that is in the program: of the modules
// that it is linked with, of Go's own library and runtime, of the engine in the page of
// the desk, of the chart script. They are collected from the files of those works before
// the build (see folder collect), put into dist and kept out of git.
package licences

import (
	"bytes"
	"compress/gzip"
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
)

// Work is something of which all or a part is in the program.
type Work struct {
	Name     string   `json:"name"`
	Version  string   `json:"version,omitempty"`
	Kind     Kind     `json:"kind"`
	Parts    []Part   `json:"parts"`    // of the program that it is in, at least one
	Licences []string `json:"licences"` // by their SPDX identifiers, at least one
	Texts    []Text   `json:"texts"`    // at least one
}

// Kind is where a work comes from.
type Kind string

// The kinds of works.
const (
	Program  Kind = "program" // itself
	Language Kind = "go"      // Go's library and runtime
	Module   Kind = "module"  // of Go
	Package  Kind = "package" // of npm
)

// Part is a part of the program that may be handed on by itself.
type Part string

// The parts of the program.
const (
	Binary Part = "program" // what is run on a machine
	Engine Part = "desk"    // what runs in the page of the desk
	Charts Part = "charts"  // the script in every page with charts
)

// Text is a file of a work in which its licence or a notice stands.
type Text struct {
	File string `json:"file"`
	Text string `json:"text"`
}

// ErrNone is the error of a build without the licences.
var ErrNone = errors.New("this build of arrayodds has no licences in it; make build puts them in (make licences collects them)")

//go:embed dist
var dist embed.FS

const packed = "dist/licences.json.gz"

// All returns every work, the program first. The error is [ErrNone] where the build has
// none.
func All() ([]Work, error) { return read(dist) }

func read(files fs.FS) ([]Work, error) {
	data, err := fs.ReadFile(files, packed)
	if err != nil {
		return nil, ErrNone
	}
	r, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("the licences in this build: %w", err)
	}
	var all []Work
	if err := json.NewDecoder(r).Decode(&all); err != nil {
		return nil, fmt.Errorf("the licences in this build: %w", err)
	}
	return all, nil
}

// Pack writes works as [All] reads them. The same works give the same bytes.
func Pack(w io.Writer, all []Work) error {
	z, err := gzip.NewWriterLevel(w, gzip.BestCompression)
	if err != nil {
		return err
	}
	if err := json.NewEncoder(z).Encode(all); err != nil {
		return err
	}
	return z.Close()
}

// In returns the works that are in any of these parts.
func In(all []Work, parts ...Part) []Work {
	return slices.DeleteFunc(slices.Clone(all), func(w Work) bool {
		return !slices.ContainsFunc(w.Parts, func(p Part) bool { return slices.Contains(parts, p) })
	})
}
