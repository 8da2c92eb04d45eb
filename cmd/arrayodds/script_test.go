package main

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/cmd/arrayodds/export/schematest"
	"arrayodds/sim"

	"github.com/rogpeppe/go-internal/testscript"
)

// all asks for every hostile input and for faults in every command: make faults does. Make
// calibrate asks for parts of every number of every site.
var all = flag.Bool("all", false, "try every hostile input, every fault on every command, and every number of parts")

func TestMain(m *testing.M) {
	if commands[filepath.Base(os.Args[0])] == nil { // as one of these it collects as ever
		// The tests make large pages that nobody keeps: to make room takes less than to collect them.
		debug.SetGCPercent(400)
	}
	testscript.Main(m, commands)
}

// commands are what a script can run beside the usual.
var commands = map[string]func(){"arrayodds": main}

// TestScript runs testdata/script: what is typed, what is seen, what goes wrong.
func TestScript(t *testing.T) {
	dir, err := filepath.Abs("testdata/script") // whichever directory this process is in, see runHere
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: dir,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"status":    status,
			"interrupt": interrupt,
			"json":      jsonIs,
			"csvrows":   csvRows,
			"entries":   entries,
		},
		Condition: func(cond string) (bool, error) {
			if cond != "thorough" { // what make test leaves out
				return false, fmt.Errorf("unknown condition %q", cond)
			}
			return thorough.Asked(), nil
		},
	})
}

// status N arrayodds ARGS... runs the program, which is to end with exit status N. The
// script reads its output as that of exec. It runs in this process, as a start of
// another takes longer than most of what is asked here; where it reads standard input
// it gets a process of its own, as with exec.
func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 || args[1] != "arrayodds" {
		ts.Fatalf("usage: status N arrayodds ARGS...")
	}
	got := 0
	if slices.Contains(args, "-") {
		err := ts.Exec(args[1], args[2:]...)
		if exit, ok := err.(*exec.ExitError); ok {
			got = exit.ExitCode()
		} else if err != nil {
			ts.Fatalf("%v", err)
		}
	} else {
		got = runHere(ts, args[1:])
	}
	if fmt.Sprint(got) != args[0] {
		ts.Fatalf("exit status %d, want %s", got, args[0])
	}
	if got == exitOK {
		checkSchemas(ts, args[2:])
	}
}

// checkSchemas holds what a command wrote as JSON against the schema.
func checkSchemas(ts *testscript.TestScript, args []string) {
	kind, check := args[0], schematest.CheckExactly
	switch {
	case kind == "merge":
		kind, check = "", schematest.Check // of the command that the parts are of
	case slices.Contains(args, "--drill"):
		kind = "drill"
	case slices.Contains(args, "--fleet"):
		kind = "fleet"
	}
	for i, arg := range args[:len(args)-1] {
		if path := args[i+1]; arg == "--json" && path != stdio && path != os.DevNull {
			if err := check(kind, []byte(ts.ReadFile(path))); err != nil {
				ts.Fatalf("%s: %v", path, err)
			}
		}
	}
}

// here is held by the script whose directory is the one of this process.
var here sync.Mutex

// runHere runs the program in this process, in the script's directory.
func runHere(ts *testscript.TestScript, args []string) int {
	here.Lock()
	defer here.Unlock()
	back, err := os.Getwd()
	ts.Check(err)
	ts.Check(os.Chdir(ts.MkAbs(".")))
	defer func() { ts.Check(os.Chdir(back)) }()
	return program{in: strings.NewReader(""), out: ts.Stdout(), err: ts.Stderr(), simulate: sim.Run}.run(context.Background(), args)
}

// interrupt SITE SIGNAL COMMAND ARGS... starts the command, feeds it the site
// file by standard input, and sends it the signal: INT or TERM. The site is
// padded with so long a comment that it does not fit a pipe: once it is
// written, the command is known to be up and reading.
func interrupt(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 3 {
		ts.Fatalf("usage: interrupt SITE SIGNAL COMMAND ARGS...")
	}
	signal := map[string]os.Signal{"INT": os.Interrupt, "TERM": syscall.SIGTERM}[args[1]]
	c := exec.Command(args[2], args[3:]...)
	c.Dir = ts.Getenv("WORK")
	var out, errOut strings.Builder
	c.Stdout, c.Stderr = &out, &errOut
	in, err := c.StdinPipe()
	ts.Check(err)
	ts.Check(c.Start())
	const line = "# for no reason but to be long, longer than a pipe has room for\n"
	_, err = io.WriteString(in, ts.ReadFile(args[0])+strings.Repeat(line, 1<<20/len(line)))
	ts.Check(err)
	ts.Check(in.Close())
	ts.Check(c.Process.Signal(signal))
	err = c.Wait()
	exit, ok := err.(*exec.ExitError)
	if !ok || exit.ExitCode() != 1 {
		ts.Fatalf("ended with %v, want exit status 1\n%s%s", err, out.String(), errOut.String())
	}
	if out.Len() > 0 || !strings.Contains(errOut.String(), "stopped; nothing was written") {
		ts.Fatalf("standard output %q, standard error %q", out.String(), errOut.String())
	}
}

// json FILE PATH WANT compares one value, its path in dots: choices.0.label.
func jsonIs(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 3 {
		ts.Fatalf("usage: json FILE PATH WANT")
	}
	var at any
	ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[0])), &at))
	for key := range strings.SplitSeq(args[1], ".") {
		switch v := at.(type) {
		case map[string]any:
			next, ok := v[key]
			if !ok {
				ts.Fatalf("no %s of %s", key, args[1])
			}
			at = next
		case []any:
			var i int
			if _, err := fmt.Sscan(key, &i); err != nil || i >= len(v) {
				ts.Fatalf("no %s of %s", key, args[1])
			}
			at = v[i]
		default:
			ts.Fatalf("%s goes deeper than the file", args[1])
		}
	}
	got, isText := at.(string)
	if !isText {
		text, err := json.Marshal(at)
		ts.Check(err)
		got = string(text)
	}
	if (got == args[2]) == neg {
		ts.Fatalf("%s is %s, given %s", args[1], got, args[2])
	}
}

// csvrows FILE N says that the file has N rows beneath its heading.
func csvRows(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: csvrows FILE N")
	}
	rows, err := csv.NewReader(strings.NewReader(ts.ReadFile(args[0]))).ReadAll()
	ts.Check(err)
	if got := fmt.Sprint(len(rows) - 1); got != args[1] {
		ts.Fatalf("%s rows, want %s", got, args[1])
	}
}

// entries DIR NAMES... says what a directory holds, hidden files too.
func entries(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: entries DIR NAMES...")
	}
	all, err := os.ReadDir(ts.MkAbs(args[0]))
	ts.Check(err)
	var got []string
	for _, e := range all {
		got = append(got, e.Name())
	}
	if want := strings.Join(args[1:], " "); strings.Join(got, " ") != want {
		ts.Fatalf("%s holds %q, want %q", args[0], got, want)
	}
}
