package main

import (
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"slices"
	"strings"
	"syscall"
	"time"

	"golang.org/x/sys/unix"
)

// undisturbed runs the command without a fault.
func undisturbed(r *faultRun) faultOutcome { return r.wait(r.start(r.cmd("")), tooLong) }

// mount mounts a file system of this size in memory on the folder of outputs.
func (r *faultRun) mount(size string) {
	r.Helper()
	if err := syscall.Mount("tmpfs", r.path("out"), "tmpfs", 0, "size="+size); err != nil {
		r.Skipf("nothing can be mounted here: %v", err)
	}
	r.Cleanup(func() { r.check(syscall.Unmount(r.path("out"), syscall.MNT_DETACH)) })
	r.layOut()
}

func onFullDisk(r *faultRun) faultOutcome {
	r.mount("64k")
	filler, err := os.Create(r.path("out/other.filler"))
	r.check(err)
	if _, err := io.Copy(filler, rand.NewChaCha8([32]byte{})); err == nil {
		r.Fatal("the disk does not fill")
	}
	r.check(filler.Close())
	return undisturbed(r)
}

func withFileLimit(r *faultRun) faultOutcome {
	return r.wait(r.start(r.cmd("ulimit -f 0; ")), tooLong)
}

func inReadOnlyFolder(r *faultRun) faultOutcome {
	if os.Geteuid() != 0 { // whom permissions do not hold
		r.check(os.Chmod(r.path("out"), 0o555))
		defer func() { r.check(os.Chmod(r.path("out"), 0o755)) }()
		return undisturbed(r)
	}
	r.mount("1m")
	r.check(syscall.Mount("", r.path("out"), "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""))
	return undisturbed(r)
}

// folderVanishes moves the folder away while the page goes to a pipe: all is
// computed by then, and the outputs are on disk.
func folderVanishes(r *faultRun) faultOutcome {
	pipe := r.mkfifo("pipe")
	// The pipe holds less than is written to it, so that the command waits while the folder
	// goes. It is as large again once nobody has it open.
	small, err := os.OpenFile(pipe, os.O_RDWR, 0)
	r.check(err)
	_, err = unix.FcntlInt(small.Fd(), unix.F_SETPIPE_SZ, 4096)
	r.check(err)
	s := r.start(r.cmd(""))
	reader, err := os.Open(pipe)
	r.check(err)
	_, err = io.ReadFull(reader, make([]byte, 1))
	r.check(err)
	r.check(os.Rename(r.path("out"), r.path("elsewhere")))
	r.check(small.Close()) // else the pipe would never end
	_, err = io.Copy(io.Discard, reader)
	r.check(err)
	r.check(reader.Close())
	got := r.wait(s, tooLong)
	r.check(os.Rename(r.path("elsewhere"), r.path("out")))
	return got
}

func toFullOutput(r *faultRun) faultOutcome {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	r.check(err)
	defer full.Close() // nothing can be written to it
	c := r.cmd("")
	c.Stdout = full
	return r.wait(r.start(c), tooLong)
}

func toBrokenPipe(r *faultRun) faultOutcome {
	reader, writer, err := os.Pipe()
	r.check(err)
	r.check(reader.Close())
	defer writer.Close() // nobody reads from it
	c := r.cmd("")
	c.Stdout = writer
	return r.wait(r.start(c), tooLong)
}

func streamsClosed(r *faultRun) faultOutcome {
	return r.wait(r.start(r.cmd("exec <&- >&- 2>&-; ")), tooLong)
}

// reading sends a signal while the command waits for more from standard input.
func reading(signal syscall.Signal) func(*faultRun) faultOutcome {
	return func(r *faultRun) faultOutcome {
		text, err := os.ReadFile(r.path(r.command.input))
		r.check(err)
		c := exec.Command("arrayodds", r.args("-")...)
		c.Dir = r.dir
		in, err := c.StdinPipe()
		r.check(err)
		s := r.start(c)
		// More than a pipe has room for: once it is written, the command reads.
		line := "# no more than a comment\n"
		if r.command.name == "fit" {
			line = "a,100000,5\n"
		}
		_, err = io.WriteString(in, string(text)+strings.Repeat(line, 1<<18/len(line)))
		r.check(err)
		r.check(c.Process.Signal(signal))
		got := r.wait(s, atOnce)
		_ = in.Close() // which the end of the command has closed already
		r.checkStopped(got)
		return got
	}
}

// waiting sends a signal while the command waits for somebody to read from a pipe.
func waiting(signal syscall.Signal) func(*faultRun) faultOutcome {
	return func(r *faultRun) faultOutcome {
		first := r.mkfifo("first")
		r.mkfifo("second") // nobody reads from it
		s := r.start(r.cmd(""))
		r.drain(first)
		r.check(s.Process.Signal(signal))
		got := r.wait(s, atOnce)
		r.checkStopped(got)
		return got
	}
}

// checkStopped looks at what a command says that a signal ended.
func (r *faultRun) checkStopped(got faultOutcome) {
	r.Helper()
	if got.stdout != "" || !strings.Contains(got.stderr, "stopped; nothing was written") {
		r.Errorf("standard output %q, standard error %q", got.stdout, got.stderr)
	}
}

// drain reads all that comes through a named pipe.
func (r *faultRun) drain(pipe string) {
	r.Helper()
	reader, err := os.Open(pipe)
	r.check(err)
	_, err = io.Copy(io.Discard, reader)
	r.check(err)
	r.check(reader.Close())
}

// kills is how often each command that writes files is killed: 54 times in all with
// -all. Without it compare is, a third as often.
const kills = 9

// killed kills the command at random moments: of the whole run, and of the time in
// which it puts its files in place. After each time another run writes into the same
// folder, which mends what the dead one left.
func killed(r *faultRun) (got faultOutcome) {
	begin := time.Now()
	undisturbed(r)
	whole := time.Since(begin)
	pipe := r.mkfifo("pipe")
	random := rand.New(rand.NewPCG(1, 2))
	times := kills
	if !*all {
		times /= 3
	}
	for i := range times {
		for _, f := range r.command.formats {
			r.check(os.RemoveAll(r.path("out/x." + f)))
		}
		r.layOut()
		r.pipes = nil
		if i%3 > 0 {
			r.pipes = []string{"pipe"}
		}
		s := r.start(r.cmd(""))
		moment := time.Duration(random.Float64() * float64(whole))
		if i%3 > 0 { // the rest of the run takes this long
			r.drain(pipe)
			moment = time.Duration(random.Float64() * float64(3*time.Millisecond))
		}
		<-time.After(moment)
		_ = s.Process.Kill() // it may have ended
		got = r.wait(s, tooLong)
		if got.status != 0 && got.status != 128+int(syscall.SIGKILL) {
			r.Errorf("exit status %d: %s", got.status, got.stderr)
		}
		if state := r.state(); strings.HasPrefix(state, "not whole") || got.status == 0 && state != "new" {
			r.Errorf("killed at %v: files are %s", moment, state)
		}
		other := exec.Command("arrayodds", "fit", "record.csv", "--html", "out/other.html")
		other.Dir = r.dir
		if after := r.wait(r.start(other), tooLong); after.status != 0 {
			r.Errorf("the next run: status %d: %s", after.status, after.stderr)
		}
		if state := r.state(); state != "old" && state != "new" {
			r.Errorf("killed at %v: after the next run files are %s", moment, state)
		}
		r.checkFolder()
	}
	return got
}

// twoAtOnce runs the command twice at once with different seeds. The files of the
// second one count as new, too.
func twoAtOnce(r *faultRun) faultOutcome {
	other := *r
	other.seed = "2"
	both := []started{r.start(r.cmd("")), r.start(other.cmd(""))}
	for _, s := range both {
		if got := r.wait(s, tooLong); got.status != 0 {
			return got
		}
	}
	r.checkFolder()
	found := r.outputs()
	got := undisturbed(&other)
	if last := r.outputs(); slices.EqualFunc(r.command.formats, r.command.formats, func(f, _ string) bool { return found["x."+f] == last["x."+f] }) {
		r.new = last
	}
	for name, text := range found {
		r.writeFile("out/"+name, text)
	}
	return got
}
