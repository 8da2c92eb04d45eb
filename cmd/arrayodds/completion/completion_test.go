package completion

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/urfave/cli/v2"
)

// commands are made up: an apostrophe, brackets and colons in what they say.
var commands = []*cli.Command{
	{Name: "weigh", Usage: "the keeper's way: all [or none]", UsageText: "arrayodds weigh SITE.toml [flags]", Flags: []cli.Flag{
		&cli.StringSliceFlag{Name: "page", Usage: "write it to `FILE`: [a page]"},
		&cli.StringFlag{Name: "grain", Usage: "a `NUMBER`, the keeper's own"},
		&cli.BoolFlag{Name: "gross"},
	}},
	{Name: "wait", Usage: "do nothing", UsageText: "arrayodds wait"},
	{Name: "read", Usage: "read a record", UsageText: "arrayodds read RECORD"},
	{Name: "tell", Usage: "of a command", UsageText: "arrayodds tell [COMMAND | all [KEY]]"},
}

// lines are typed, and what a shell offers behind each, in its order of names; in a
// folder with the files a.toml and c.csv.
var lines = []struct {
	typed string
	want  []string
}{
	{"w", []string{"wait", "weigh"}},
	{"weigh --g", []string{"--grain", "--gross"}},
	{"weigh ", []string{"a.toml"}},
	{"weigh a.toml --page ", []string{"a.toml", "c.csv"}},
	{"weigh --page c", []string{"c.csv"}},
	{"weigh --grain ", nil},
	{"wait ", nil},
	{"read ", []string{"a.toml", "c.csv"}},
	{"tell w", []string{"wait", "weigh"}},
	{"tell weigh --", []string{"--help"}},
}

// run runs a shell on a script of its own and returns what it says.
func run(t *testing.T, dir, shell string, args ...string) string {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	home := t.TempDir() // where a shell may write what it likes
	c := exec.CommandContext(ctx, shell, args...)
	c.Dir = dir
	c.Env = append(os.Environ(), "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_DATA_HOME="+home, "TERM=dumb")
	out, err := c.CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", shell, err, out)
	}
	return string(out)
}

// folder returns a folder with two files, and the path of the script for a shell,
// which stands elsewhere.
func folder(t *testing.T, shell string) (dir, script string) {
	t.Helper()
	if _, err := exec.LookPath(shell); err != nil {
		t.Skipf("%s is not installed, so its script is not run (Debian: apt-get install %s)", shell, shell)
	}
	text, ok := Script(commands, shell)
	if !ok {
		t.Fatalf("no script for %s", shell)
	}
	dir, script = t.TempDir(), filepath.Join(t.TempDir(), "_arrayodds")
	for name, text := range map[string]string{filepath.Join(dir, "a.toml"): "", filepath.Join(dir, "c.csv"): "", script: text} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir, script
}

func check(t *testing.T, shell, typed string, got, want []string) {
	t.Helper()
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("%s: behind %q it offers %q, want %q", shell, typed, got, want)
	}
}

func TestBash(t *testing.T) {
	t.Parallel()
	dir, script := folder(t, "bash")
	const ask = `source "$1"; shift; complete -p arrayodds >/dev/null || exit 1; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _arrayodds; ((${#COMPREPLY[@]} == 0)) || printf '%s\n' "${COMPREPLY[@]}"`
	for _, l := range lines {
		words := strings.Split("arrayodds "+l.typed, " ")
		got := strings.Fields(run(t, dir, "bash", append([]string{"--norc", "-c", ask, "bash", script}, words...)...))
		check(t, "bash", l.typed, got, l.want)
	}
	// As bash parts --page=c.
	got := strings.Fields(run(t, dir, "bash", "--norc", "-c", ask, "bash", script, "arrayodds", "weigh", "--page", "=", "c"))
	check(t, "bash", "weigh --page=c", got, []string{"c.csv"})
}

func TestFish(t *testing.T) {
	t.Parallel()
	dir, script := folder(t, "fish")
	for _, l := range lines {
		var got []string
		for line := range strings.Lines(run(t, dir, "fish", "--no-config", "-c", "source $argv[1]; complete -C $argv[2]", script, "arrayodds "+l.typed)) {
			word, _, _ := strings.Cut(strings.TrimSpace(line), "\t")
			got = append(got, word)
		}
		if l.typed == "weigh " { // fish offers other files too, behind those that fit
			got = slices.DeleteFunc(got, func(name string) bool { return name == "c.csv" })
		}
		check(t, "fish", l.typed, got, l.want)
	}
}

// TestZsh types into a zsh on a terminal of its own, and looks at what the completion
// system is given: what it would show depends on the terminal.
func TestZsh(t *testing.T) {
	t.Parallel()
	dir, script := folder(t, "zsh")
	notes := filepath.Dir(script)
	const ask = `
zmodload zsh/zpty && zmodload zsh/zselect || exit 1
zpty shell zsh -f -i
line() { zpty -w shell "$1" }
line "PROMPT=; autoload -Uz compinit; compinit -D -u; source ${(q)1}; cd ${(q)PWD}"
# What is offered is put into a file too; with -O, -A and -D nothing is.
line "compadd() { if [[ \${@[1,(i)(-|--)]} != *-(O|A|D)\ * ]]; then local -a __hits; builtin compadd -O __hits \"\$@\"; print -rl -- \$__hits >>${(q)2}/offered; fi; builtin compadd \"\$@\" }"
line "finish() { zle complete-word; : >${(q)2}/finished; zle kill-buffer }; zle -C complete-word complete-word _main_complete; zle -N finish; bindkey '^I' finish; print READY"
zpty -r shell out '*READY*READY*' || exit 1
cd $2; shift 2
for typed; do
	rm -f offered finished
	zpty -n -w shell "arrayodds $typed"$'\t'
	until [[ -e finished ]]; do zpty -r -t shell out; zselect -t 2; done
	print "=$typed"
	[[ ! -e offered ]] || cat offered
done
zpty -d shell
`
	args := []string{"-f", "-c", ask, "zsh", script, notes}
	for _, l := range lines {
		args = append(args, l.typed)
	}
	answers := strings.Split("\n"+run(t, dir, "zsh", args...), "\n=")[1:]
	if len(answers) != len(lines) {
		t.Fatalf("%d answers to %d lines: %q", len(answers), len(lines), answers)
	}
	for i, l := range lines {
		_, offered, _ := strings.Cut(answers[i], "\n")
		want := l.want
		if l.typed == "wait " { // where there is nothing else, zsh offers the flags
			want = []string{"--help"}
		}
		check(t, "zsh", l.typed, slices.Compact(strings.Fields(offered)), want)
	}
}

func TestOtherShell(t *testing.T) {
	t.Parallel()
	if text, ok := Script(commands, "sh"); ok || text != "" {
		t.Errorf("there is a script for sh: %q", text)
	}
}
