package desk

import (
	"bytes"
	"embed"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"regexp"
	"strings"

	"arrayodds/cmd/arrayodds/licences"
	"arrayodds/cmd/desk/session"
	"arrayodds/sim/study"
	"arrayodds/sim/teach"
)

// Given is the site that a desk begins with. One without a text begins by offering a few.
type Given struct {
	Name  string            `json:"name"` // of the file, to save it as
	Text  string            `json:"text"`
	Files map[string][]byte `json:"files,omitempty"` // that the site names, by the names that it gives
	First *session.First    `json:"first,omitempty"` // what the page shows until its engine runs; it does without
}

// Studies are the questions that stand beside comparing, in the order of their tabs.
var Studies = []string{"size", "choose", "vary", "rank", "replay", "lesson", "plan", "now", "fit"}

// ErrNoEngine is the error of [Write] in a build without the engine.
var ErrNoEngine = errors.New("this build of arrayodds has no engine for the desk in it; make build puts one in (it compiles cmd/desk to WebAssembly)")

//go:embed dist
var dist embed.FS

//go:embed page.html style.css worker.js scripts
var sources embed.FS

// scripts are the files of the page's script, in their order; early.js goes before them.
var scripts = []string{"dom", "engines", "site", "files", "scale", "units", "form", "editor", "answers", "slider", "studies", "start"}

// known is what the scripts need to know of the engine before it answers.
type known struct {
	Replicates int      `json:"replicates"` // of the doubt of a comparison
	Questions  []string `json:"questions"`  // that a lesson may ask too
}

// contents is what the template is given.
type contents struct {
	Given, Known     template.JS // JSON
	Studies          []string
	Style            template.CSS
	Early, Script    template.JS
	WasmExec, Worker template.HTML
	Engine           []template.HTML // in parts
	Licences         template.HTML   // of all that is in the page
}

// Write writes the page. The error is [ErrNoEngine] where the build has no engine, and
// [licences.ErrNone] where it does not have the licences that the page owes.
func Write(w io.Writer, given Given) error { return write(w, given, dist) }

func write(w io.Writer, given Given, built fs.FS) error {
	engine, err := fs.ReadFile(built, "dist/engine.wasm.gz")
	if err != nil {
		return ErrNoEngine
	}
	wasmExec, err := fs.ReadFile(built, "dist/wasm_exec.js")
	if err != nil {
		return ErrNoEngine
	}
	notices, err := notices()
	if err != nil {
		return err
	}
	page, err := template.New("desk").Funcs(template.FuncMap{"title": title}).ParseFS(sources, "page.html")
	if err != nil {
		return fmt.Errorf("the page of the desk: %w", err)
	}
	givenJSON, err := jsonOf(given)
	if err != nil {
		return err
	}
	knownJSON, err := jsonOf(known{study.Replicates, teach.Keys})
	if err != nil {
		return err
	}
	c := contents{
		Given: givenJSON, Known: knownJSON, Studies: Studies,
		Style:    template.CSS(asciiStyle(source("style.css"))),
		Early:    template.JS(asciiScript(source("scripts/early.js"))),
		Script:   template.JS(asciiScript(script())),
		WasmExec: template.HTML(asciiScript(endOfScript.ReplaceAllString(string(wasmExec), `<\/$1`))),
		Worker:   template.HTML(asciiScript(source("worker.js"))),
		Engine:   parts(base64.StdEncoding.EncodeToString(engine)),
		Licences: template.HTML(asciiText(notices)),
	}
	var b bytes.Buffer
	b.Grow(base64.StdEncoding.EncodedLen(len(engine)) + 1<<20) // most of the page; to grow to it would take as long as all else
	if err := page.ExecuteTemplate(&b, "page.html", c); err != nil {
		return fmt.Errorf("making the desk: %w", err)
	}
	_, err = b.WriteTo(w)
	return err
}

// jsonOf returns a value as JSON in which nothing ends the element that it stands in:
// package json escapes that.
func jsonOf(v any) (template.JS, error) {
	data, err := json.Marshal(v)
	if err != nil {
		return "", fmt.Errorf("making the desk: %w", err)
	}
	return template.JS(asciiScript(string(data))), nil
}

// notices returns the licences of all that is in the page: the engine, with Go's runtime,
// and the script that draws the charts.
func notices() (string, error) {
	all, err := licences.All()
	if err != nil {
		return "", err
	}
	var b strings.Builder
	err = licences.Write(&b, licences.In(all, licences.Engine, licences.Charts))
	return b.String(), err
}

// EngineVersion returns the version of the Go that built the engine, "" where the build
// has none.
func EngineVersion() string {
	version, err := dist.ReadFile("dist/go.txt")
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(version))
}

// part is the length of the parts of the engine, in characters: a multiple of 4, so that
// each can be decoded by itself.
const part = 1 << 18

// parts cuts a text.
func parts(text string) (all []template.HTML) {
	for len(text) > part {
		all = append(all, template.HTML(text[:part]))
		text = text[part:]
	}
	return append(all, template.HTML(text))
}

// title returns a name as a tab shows it.
func title(name string) string { return strings.ToUpper(name[:1]) + name[1:] }

// script returns the script of the page, of all its files.
func script() string {
	var b strings.Builder
	b.WriteString("\"use strict\";\n")
	for _, name := range scripts {
		b.WriteString(source("scripts/" + name + ".js"))
	}
	return b.String()
}

// source returns a file of this folder, which is in the build.
func source(name string) string {
	text, err := sources.ReadFile(name)
	if err != nil {
		panic(err) // go:embed found it
	}
	return string(text)
}

// What would end the element that a script stands in is escaped.
var endOfScript = regexp.MustCompile(`(?i)</(script)`)
