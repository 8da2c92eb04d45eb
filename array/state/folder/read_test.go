package folder

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"arrayodds/array/toml"
)

// siteText is a site of one choice, which names a schedule of cameras where that is given.
func siteText(label, extra string) string {
	return extra + `
service_life = "2 y"
[[drives]]
label = "4 TB"
capacity = "4 TB"
life = { afr = "2 %" }
transfer = "180 MB/s"
[[choices]]
label = "` + label + `"
drive = "4 TB"
layout = "RAID 6"
drives = 6
`
}

const stateText = "age = \"2 y\"\n"

func files(all map[string]string) fstest.MapFS {
	fsys := fstest.MapFS{}
	for name, text := range all {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return fsys
}

// Each state finds its site: by name, by the file of its own name, by site.toml beside it;
// a site is read once. Hidden folders and other files are left alone.
func TestWhichSite(t *testing.T) {
	t.Parallel()
	f, err := Read(context.Background(), files(map[string]string{
		"north/site.toml":         siteText("common", ""),
		"north/a.state.toml":      stateText,
		"north/b.state.toml":      stateText,
		"north/b.toml":            siteText("own", ""),
		"north/deep/c.state.toml": "site = \"../site.toml\"\n" + stateText,
		"d.state.toml":            "site = \"north/b.toml\"\n" + stateText,
		".old/e.state.toml":       "not even TOML",
		"north/notes.txt":         "x",
		"north/other.toml":        "not a site",
	}), "customers")
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"d north/b.toml own", "north/a north/site.toml common", "north/b north/b.toml own", "north/deep/c north/site.toml common"}
	var got []string
	for _, a := range f.Arrays {
		got = append(got, fmt.Sprint(a.Name, " ", a.SiteAt, " ", a.Site.Site.Choices[a.Choice].Label))
		if len(a.State.Drives) != 6 {
			t.Errorf("%s has %d drives", a.Name, len(a.State.Drives))
		}
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("read\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if f.Sites != 2 || f.Arrays[1].Site != f.Arrays[3].Site || len(f.Opened) != 6 {
		t.Errorf("%d sites, %d files opened", f.Sites, len(f.Opened))
	}
}

// A schedule of cameras is looked for beside the site file that names it.
func TestWhatASiteNames(t *testing.T) {
	t.Parallel()
	all := map[string]string{
		"north/site.toml":    siteText("x", "cameras = \"cameras.csv\"\n"),
		"north/cameras.csv":  "label,count,bitrate,retention\ngate,2,4 Mbit/s,10 d\n",
		"north/a.state.toml": stateText,
	}
	f, err := Read(context.Background(), files(all), "customers")
	if err != nil {
		t.Fatal(err)
	}
	if n := len(f.Arrays[0].Site.Site.Cameras); n != 1 || len(f.Opened) != 3 {
		t.Errorf("%d groups of cameras, %d files opened", n, len(f.Opened))
	}
}

// All that is wrong with all files is said at once, each with its place; a site that is at
// fault once, however many states it serves.
func TestAllErrorsAtOnce(t *testing.T) {
	t.Parallel()
	_, err := Read(context.Background(), files(map[string]string{
		"good/site.toml":       siteText("fine", ""),
		"good/a.state.toml":    "age = 3\nhot_spares = 2\n",
		"good/b.state.toml":    "site = \"../none.toml\"\n" + stateText,
		"good/c.state.toml":    "site = \"../../elsewhere/site.toml\"\n" + stateText,
		"good/d.state.toml":    "site = 7\n" + stateText,
		"good/e.state.toml":    "age = \"2 y\n",
		"good/f.state.toml":    "site = \"a.state.toml\"\n" + stateText,
		"bad/site.toml":        siteText("x", "")[1:] + "colour = 3\n",
		"bad/a.state.toml":     "age = 3\n[[drives]]\nnumber = 9\n",
		"bad/b.state.toml":     stateText,
		"nowhere/a.state.toml": stateText,
	}), "customers")
	errs, ok := errors.AsType[Errors](err)
	if !ok {
		t.Fatalf("%v", err)
	}
	text := errs.Error()
	for _, want := range []string{
		"customers/bad/a.state.toml:1: age: found 3", "customers/bad/site.toml:12: choices.x.colour: found an unknown key", "customers/good/a.state.toml:1: age: found", "customers/good/a.state.toml:2: hot_spares: found 2",
		`customers/good/b.state.toml:1: site: found "../none.toml", which cannot be read (file does not exist); right would be the path of a site file`,
		`customers/good/c.state.toml:1: site: found "../../elsewhere/site.toml"; right would be a site file in the folder that is read: this leads out of it`,
		"customers/good/d.state.toml:1: site: found 7; right would be a text in quotes", "customers/good/e.state.toml:1: ",
		`customers/good/f.state.toml:1: site: found "a.state.toml"`,
		`customers/nowhere/a.state.toml:1: site: found no site file; right would be site = "PATH" in this file, or a.toml or site.toml beside it`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("not said: %s", want)
		}
	}
	if n := strings.Count(text, "bad/site.toml"); n != 1 || strings.Contains(text, "bad/b.state") || strings.Contains(text, "number = 9") {
		t.Errorf("the site at fault is named %d times, or its states are judged without it", n)
	}
	if !strings.HasPrefix(text, "customers/bad/site.toml") {
		t.Error("the site does not come first")
	}
	if t.Failed() {
		t.Log(text)
	}
}

// Of very many errors the first are said, and how many more there are.
func TestManyErrors(t *testing.T) {
	t.Parallel()
	all := map[string]string{"site.toml": siteText("x", "")}
	for i := range 300 {
		all[fmt.Sprintf("a%03d.state.toml", i)] = "age = 3\nhot_spares = 2\n"
	}
	_, err := Read(context.Background(), files(all), "customers")
	errs, ok := errors.AsType[Errors](err)
	if !ok {
		t.Fatal(err)
	}
	lines := errs.Lines()
	if len(lines) != mostLines+1 || lines[mostLines] != "500 errors more in 250 files; right would be to mend those above first" {
		t.Errorf("%d lines, the last %q", len(lines), lines[len(lines)-1])
	}
}

func TestNoStates(t *testing.T) {
	t.Parallel()
	_, err := Read(context.Background(), files(map[string]string{"site.toml": siteText("x", "")}), "customers")
	if err == nil || !strings.Contains(err.Error(), `customers: no file in it has a name that ends in ".state.toml"`) {
		t.Errorf("%v", err)
	}
}

func TestDeepFolders(t *testing.T) {
	t.Parallel()
	deep := strings.Repeat("d/", mostDepth+1)
	_, err := Read(context.Background(), files(map[string]string{deep + "a.state.toml": stateText}), "customers")
	if err == nil || !strings.Contains(err.Error(), "folders more than 16 deep") {
		t.Errorf("%v", err)
	}
}

// Nothing is read out of the folder: a link to a state outside is an error, one to a folder
// is not followed and said. One within is read.
func TestLinks(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	write := func(name, text string) {
		full := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(full, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	link := func(to, name string) {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Skip(err) // a system on which not everybody may
		}
	}
	write("fleet/site.toml", siteText("x", ""))
	write("fleet/a.state.toml", stateText)
	write("outside/b.state.toml", stateText)
	link("a.state.toml", "fleet/again.state.toml")
	link("../outside", "fleet/more")
	read := func() (*Folder, error) {
		root, err := os.OpenRoot(filepath.Join(dir, "fleet"))
		if err != nil {
			t.Fatal(err)
		}
		defer root.Close()
		return Read(context.Background(), root.FS(), "fleet")
	}
	f, err := read()
	if err != nil || len(f.Arrays) != 2 || len(f.Links) != 1 || f.Links[0] != "more" {
		t.Errorf("%v, %+v", err, f)
	}
	link("../outside/b.state.toml", "fleet/c.state.toml")
	if _, err = read(); err == nil || !strings.Contains(err.Error(), "fleet/c.state.toml: a link that cannot be followed") {
		t.Errorf("%v", err)
	}
}

// A file that nobody may read is an error with its path.
func TestUnreadable(t *testing.T) {
	t.Parallel()
	_, err := Read(context.Background(), unreadable{files(map[string]string{"site.toml": siteText("x", ""), "a.state.toml": stateText})}, "customers")
	if err == nil || err.Error() != "customers/a.state.toml: permission denied" {
		t.Errorf("%v", err)
	}
}

// unreadable is a folder of which no state may be read.
type unreadable struct{ fstest.MapFS }

func (u unreadable) Open(name string) (fs.File, error) {
	if strings.HasSuffix(name, Ending) {
		return nil, &os.PathError{Op: "open", Path: name, Err: os.ErrPermission}
	}
	return u.MapFS.Open(name)
}

// Whatever the texts are, there is a folder or errors, and no error of one file is said of
// another.
func FuzzRead(f *testing.F) {
	f.Add(stateText, siteText("x", ""))
	f.Add("site = \"../x\"\n", "")
	f.Add("site = \"\"\nchoice = 3\n", "[[choices]]\n")
	f.Fuzz(func(t *testing.T, state, site string) {
		read, err := Read(context.Background(), files(map[string]string{"a.state.toml": state, "site.toml": site}), "f")
		if (read == nil) == (err == nil) {
			t.Errorf("%v and %v", read, err)
		}
		if errs, ok := errors.AsType[Errors](err); ok {
			for _, e := range errs {
				if of, ok := errors.AsType[toml.Errors](e); ok && !strings.HasPrefix(of[0].File, "f/") && of[0].Place == "" {
					t.Errorf("an error without its file: %+v", of[0])
				}
			}
		}
	})
}
