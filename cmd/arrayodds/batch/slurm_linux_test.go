package batch

import (
	"bytes"
	"crypto/rand"
	"flag"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

var slurm = flag.String("slurm", "", "run the array script on a cluster of one node with this arrayodds, as root, with Debian's slurm-wlm and munge: make slurm does")

// conf is the configuration of a cluster of one node that needs no systemd and no other
// machine.
const conf = `
ClusterName=one
SlurmctldHost=%[1]s(127.0.0.1)
SlurmUser=root
SlurmdUser=root
AuthType=auth/munge
AuthInfo=socket=%[2]s/munge.socket
CredType=cred/munge
SlurmctldPort=%[3]d
SlurmdPort=%[4]d
SlurmctldPidFile=%[2]s/slurmctld.pid
SlurmdPidFile=%[2]s/slurmd.pid
SlurmctldLogFile=%[2]s/slurmctld.log
SlurmdLogFile=%[2]s/slurmd.log
StateSaveLocation=%[2]s/state
SlurmdSpoolDir=%[2]s/spool
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SwitchType=switch/none
MpiDefault=none
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
ReturnToService=2
SlurmdParameters=config_overrides
SchedulerParameters=sched_interval=1,batch_sched_delay=0,sched_min_interval=100000
KillWait=1
CompleteWait=0
NodeName=%[1]s NodeAddr=127.0.0.1 CPUs=%[5]d RealMemory=2000 State=UNKNOWN
PartitionName=all Nodes=ALL Default=YES State=UP
`

// cluster is a cluster of one node, in a folder of its own.
type cluster struct {
	*testing.T
	dir string
	env []string
}

// An array of four parts is run, of which one task is killed: merge says which part is
// missing, that one alone is run again, and what is merged is one run.
func TestSlurmArray(t *testing.T) {
	if *slurm == "" {
		t.Skip("it needs a cluster: see -slurm")
	}
	c := newCluster(t)
	text, err := os.ReadFile("../../../testdata/saltmarsh.toml")
	c.check(err)
	c.check(os.WriteFile(filepath.Join(c.dir, "site.toml"), text, 0o644))
	c.check(os.WriteFile(filepath.Join(c.dir, "parts.slurm"), []byte(Slurm), 0o644))
	asked := []string{"compare", "site.toml", "--blocks", "1500"}

	job := c.submit(nil, append([]string{"--array=1-4", "parts.slurm"}, asked...))
	c.until("task 3 runs", func() bool {
		return strings.TrimSpace(c.run("squeue", "--noheader", "--states=RUNNING", "--format=%K", "--jobs="+job+"_3")) == "3"
	})
	c.run("scancel", "--signal=KILL", "--full", job+"_3")
	c.finished(job)

	merge := exec.Command(*slurm, "merge", "site-1-of-4.part", "site-2-of-4.part", "site-4-of-4.part", "--json", "merged.json", "--html", "merged.html")
	merge.Dir = c.dir
	said, err := merge.CombinedOutput()
	if want := "arrayodds: part 3 of 4 is missing; run: arrayodds compare site.toml --blocks 1500 --part 3/4\n"; err == nil || string(said) != want {
		t.Fatalf("%v: %s, want %s", err, said, want)
	}
	if left, _ := filepath.Glob(filepath.Join(c.dir, "*part*")); len(left) != 4 { // three, and the script
		t.Errorf("found %q", left)
	}

	c.finished(c.submit([]string{"PARTS=4"}, append([]string{"--array=3", "parts.slurm"}, asked...)))
	c.run(*slurm, "merge", "site-1-of-4.part", "site-2-of-4.part", "site-3-of-4.part", "site-4-of-4.part", "--json", "merged.json", "--html", "merged.html")
	c.run(*slurm, append(asked, "--json", "whole.json", "--html", "whole.html")...)
	for _, format := range []string{"json", "html"} {
		merged, err := os.ReadFile(filepath.Join(c.dir, "merged."+format))
		c.check(err)
		whole, err := os.ReadFile(filepath.Join(c.dir, "whole."+format))
		c.check(err)
		if !bytes.Equal(merged, whole) {
			t.Errorf("what is merged is not one run: %s", format)
		}
	}
}

// newCluster starts the daemons of a cluster, and waits until its node is there.
func newCluster(t *testing.T) *cluster {
	t.Helper()
	c := &cluster{T: t, dir: t.TempDir()}
	host, err := os.Hostname()
	c.check(err)
	host, _, _ = strings.Cut(host, ".")
	text := fmt.Sprintf(conf, host, c.dir, c.freePort(), c.freePort(), max(2, runtime.NumCPU()))
	c.check(os.WriteFile(filepath.Join(c.dir, "slurm.conf"), []byte(text), 0o644))
	for _, folder := range []string{"state", "spool", "munge"} {
		c.check(os.Mkdir(filepath.Join(c.dir, folder), 0o700))
	}
	key := make([]byte, 1024)
	_, _ = rand.Read(key) // it never fails
	c.check(os.WriteFile(filepath.Join(c.dir, "munge", "key"), key, 0o600))
	program, err := filepath.Abs(filepath.Dir(*slurm))
	c.check(err)
	*slurm = filepath.Join(program, filepath.Base(*slurm))
	c.env = append(os.Environ(), "SLURM_CONF="+filepath.Join(c.dir, "slurm.conf"), "PATH="+program+":"+os.Getenv("PATH"))
	munge := filepath.Join(c.dir, "munge")
	c.start("munged", "--foreground", "--force", "--key-file="+munge+"/key", "--socket="+c.dir+"/munge.socket",
		"--pid-file="+munge+"/pid", "--log-file="+munge+"/log", "--seed-file="+munge+"/seed")
	c.until("munge answers", func() bool {
		_, err := os.Stat(filepath.Join(c.dir, "munge.socket"))
		return err == nil
	})
	c.start("slurmctld", "-D", "-c")
	c.start("slurmd", "-D")
	c.until("the node is idle", func() bool {
		out, _ := c.command("sinfo", "--noheader", "--format=%t").Output()
		return strings.TrimSpace(string(out)) == "idle"
	})
	return c
}

// freePort returns a port of this machine that nobody listens on.
func (c *cluster) freePort() int {
	c.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	c.check(err)
	defer l.Close() // nobody connects
	return l.Addr().(*net.TCPAddr).Port
}

func (c *cluster) check(err error) {
	c.Helper()
	if err != nil {
		c.Fatal(err)
	}
}

// command returns a command in the cluster's folder.
func (c *cluster) command(name string, args ...string) *exec.Cmd {
	cmd := exec.Command(name, args...)
	cmd.Dir, cmd.Env = c.dir, c.env
	return cmd
}

// run runs a command that is to end well, and returns what it prints.
func (c *cluster) run(name string, args ...string) string {
	c.Helper()
	out, err := c.command(name, args...).CombinedOutput()
	if err != nil {
		c.Fatalf("%s %q: %v\n%s\n%s", name, args, err, out, c.logs())
	}
	return string(out)
}

// start starts a daemon, which ends with the test.
func (c *cluster) start(name string, args ...string) {
	c.Helper()
	cmd := c.command(name, args...)
	c.check(cmd.Start())
	c.Cleanup(func() {
		_ = cmd.Process.Kill() // it may have ended
		_ = cmd.Wait()         // of the kill
	})
}

// submit submits a script with variables, and returns the number of its job.
func (c *cluster) submit(variables, args []string) string {
	c.Helper()
	cmd := c.command("sbatch", append([]string{"--parsable"}, args...)...)
	cmd.Env = append(cmd.Env, variables...)
	out, err := cmd.Output()
	if err != nil {
		c.Fatalf("sbatch %q: %v\n%s", args, err, c.logs())
	}
	return strings.TrimSpace(string(out))
}

// finished waits until no task of a job is left.
func (c *cluster) finished(job string) {
	c.Helper()
	c.until("job "+job+" is done", func() bool {
		out, _ := c.command("squeue", "--noheader", "--jobs="+job).Output() // an error where it is gone
		return strings.TrimSpace(string(out)) == ""
	})
}

// until waits for something, a minute at most.
func (c *cluster) until(what string, is func() bool) {
	c.Helper()
	tick := time.NewTicker(100 * time.Millisecond)
	defer tick.Stop()
	late := time.After(time.Minute)
	begin := time.Now()
	defer func() { c.Logf("%v until %s", time.Since(begin).Round(time.Millisecond), what) }()
	for !is() {
		select {
		case <-tick.C:
		case <-late:
			c.Fatalf("waited a minute until %s\n%s\n%s", what, c.run("squeue"), c.logs())
		}
	}
}

// logs returns what the daemons and the tasks said last.
func (c *cluster) logs() string {
	var all strings.Builder
	for _, pattern := range []string{"*.log", "munge/log", "*.out"} {
		paths, _ := filepath.Glob(filepath.Join(c.dir, pattern))
		for _, path := range paths {
			text, _ := os.ReadFile(path)
			fmt.Fprintf(&all, "%s:\n%s\n", path, text[max(0, len(text)-3000):])
		}
	}
	return all.String()
}
