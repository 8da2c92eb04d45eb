//go:build linux && !race

package main

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"arrayodds/array/hostile"
	"arrayodds/array/thorough"
	"arrayodds/sim"
)

func init() { commands["measured"] = measured }

// Bounds of what an input may take: of one that is refused, seconds of the processor
// and MiB; of one that is read, MiB.
const (
	refusedTime   = time.Second
	refusedMemory = 100
	readMemory    = 1000
)

// TestHostileInputs: whatever comes, it is refused at once, in the words of an error,
// or read within bounds. It is every twentieth of the inputs, a tenth with make thorough, with
// -all every one.
func TestHostileInputs(t *testing.T) {
	t.Parallel()
	for group, inputs := range map[string][]hostile.Input{
		"site": hostile.Sites(), "schedule": hostile.Schedules(), "record": hostile.Records(),
	} {
		for i, in := range inputs {
			if !*all && (i%10 > 0 || !thorough.Part(i, 20)) {
				continue
			}
			t.Run(group+"/"+in.Name, func(t *testing.T) {
				t.Parallel()
				dir := t.TempDir()
				write(t, filepath.Join(dir, in.File), in.Make(in.Size))
				at, commands := in.File, [][]string{{"check"}, {"size"}}
				switch {
				case group == "record":
					commands = [][]string{{"fit"}}
				case group == "schedule":
					at = "site.toml"
					write(t, filepath.Join(dir, at), []byte(fmt.Sprintf("cameras = %q\n%s", in.File, hostileSite)))
					fallthrough
				case in.Read:
					commands = append(commands, []string{"compare", "--max-trials", "1000"})
				}
				if !in.Read || in.Name == "blank lines" || in.Name == "comments" { // all commands read it in the same way
					commands = commands[:1]
				}
				for _, c := range commands {
					measure(t, dir, in.Read, append(c, at))
				}
			})
		}
	}
}

// TestHostileParts: so it is with parts, the largest of them with -all.
func TestHostileParts(t *testing.T) {
	t.Parallel()
	for name, text := range map[string]func() string{
		"parts without end": func() string {
			return `{"Parts":1000000000000,"Number":1,"Blocks":1000000000000,"Command":"vary","Files":[{}]}`
		},
		"blocks without end": func() string { return `{"Parts":1,"Number":1,"Blocks":1000000000000000,"Command":"vary","Files":[{}]}` },
		"files of nothing":   func() string { return `{"Files":[` + strings.Repeat("{},", 37_000_000) + `{}]}` },
		"flags of nothing":   func() string { return `{"Flags":[` + strings.Repeat("{},", 10_000_000) + `{}]}` },
		"a long name": func() string {
			return `{"Parts":2,"Number":1,"Blocks":2,"Command":"vary","Files":[{}],"Site":"` + strings.Repeat("a", 60<<20) + `"}`
		},
		"a longish name": func() string {
			return `{"Parts":2,"Number":1,"Blocks":2,"Command":"vary","Files":[{}],"Site":"` + strings.Repeat("a", 4<<20) + `"}`
		},
	} {
		if !*all && (slices.Contains([]string{"files of nothing", "a long name"}, name) || name == "flags of nothing" && !thorough.Asked()) {
			continue // to pack them takes seconds
		}
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			write(t, filepath.Join(dir, "x.part"), packed(text()))
			measure(t, dir, false, []string{"merge", "x.part"})
		})
	}
}

// packed returns the file of a part that has this JSON.
func packed(text string) []byte {
	var body bytes.Buffer
	pack := gzip.NewWriter(&body)
	io.WriteString(pack, text) // a buffer takes all
	pack.Close()
	sum := sha256.Sum256(append(fmt.Appendf(nil, "1 %d\n", body.Len()), body.Bytes()...))
	return append(fmt.Appendf(nil, "arrayodds part 1 sha256 %x %d\n", sum, body.Len()), body.Bytes()...)
}

const hostileSite = `service_life = "5 y"
[[drives]]
label = "12 TB"
capacity = "12 TB"
life = { afr = "1.5 %" }
transfer = "210 MB/s"
[[choices]]
label = "Eight"
drive = "12 TB"
layout = "RAID 6"
drives = 8
`

func write(t *testing.T, name string, data []byte) {
	t.Helper()
	if err := os.WriteFile(name, data, 0o600); err != nil {
		t.Fatal(err)
	}
}

// measure runs the program and looks at what it took.
func measure(t *testing.T, dir string, read bool, args []string) {
	t.Helper()
	cmd := exec.Command("measured", args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "MEASURED="+filepath.Join(dir, "took"))
	var errs bytes.Buffer
	cmd.Stderr = &errs
	err := cmd.Run()
	took, readErr := os.ReadFile(filepath.Join(dir, "took"))
	var micro, peak int64
	if _, scanErr := fmt.Sscan(string(took), &micro, &peak); readErr != nil || scanErr != nil {
		t.Fatalf("%v: no measure, %v %v: %v\n%.500s", args, readErr, scanErr, err, errs.String())
	}
	cpu := time.Duration(micro) * time.Microsecond
	t.Logf("%v: %v, %d MiB, %d errors", args, cpu, peak, strings.Count(errs.String(), "\n"))
	status := cmd.ProcessState.ExitCode()
	switch wanted := strings.Contains(errs.String(), "right would be"); {
	case read && peak > readMemory:
		t.Errorf("%v: %d MiB", args, peak)
	case read && status != exitOK && !(args[0] == "size" && strings.Contains(errs.String(), "has no cameras")):
		t.Errorf("%v: status %d\n%.500s", args, status, errs.String())
	case !read && (status != exitUsage || !wanted):
		t.Errorf("%v: status %d\n%.500s", args, status, errs.String())
	case !read && (cpu > refusedTime || peak > refusedMemory):
		t.Errorf("%v: %v and %d MiB until it is refused\n%.300s", args, cpu, peak, errs.String())
	case strings.Count(errs.String(), "\n") > 201 || errs.Len() > 1<<20:
		t.Errorf("%v: %d errors, %d bytes", args, strings.Count(errs.String(), "\n"), errs.Len())
	}
}

// measured is the program that also writes down what it took: microseconds of the
// processor, and MiB at the most. What the system says to who waits for it would have
// the memory of the test in it, from before the program began.
func measured() {
	status := program{in: os.Stdin, out: os.Stdout, err: os.Stderr, simulate: sim.Run}.runUntilSignal(os.Args)
	var use syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &use) // the fields stay 0, which the test reports
	text, _ := os.ReadFile("/proc/self/status")
	peak := int64(0)
	for line := range strings.Lines(string(text)) {
		if kilo, ok := strings.CutPrefix(line, "VmHWM:"); ok {
			fmt.Sscan(kilo, &peak)
		}
	}
	micro := (use.Utime.Nano() + use.Stime.Nano()) / 1000
	os.WriteFile(os.Getenv("MEASURED"), []byte(fmt.Sprint(micro, " ", peak/1024)), 0o600)
	os.Exit(status)
}
