package script

import (
	"bytes"
	"strings"
	"testing"
	"testing/fstest"
)

// inPlace is a made-up script with all that make setup puts beside it.
func inPlace() fstest.MapFS {
	return fstest.MapFS{
		name: {Data: []byte("draw()")},
		"dist/package-lock.json": {Data: []byte(`{"packages": {
			"": {"license": "MIT"},
			"node_modules/echarts": {"version": "1.2.3", "license": "Apache-2.0"},
			"node_modules/zrender": {"version": "4.5.6", "license": "BSD-3-Clause"},
			"node_modules/tslib": {"version": "7.8.9", "license": "0BSD"}}}`)},
		"dist/licences/echarts/LICENSE":   {Data: []byte("\n  you may /* or must */ \n")},
		"dist/licences/echarts/NOTICE":    {Data: []byte("made by many")},
		"dist/licences/zrender/LICENSE":   {Data: []byte("you may too")},
		"dist/licences/tslib/LICENSE.txt": {Data: []byte("and you")},
	}
}

func TestWithoutTheScript(t *testing.T) {
	t.Parallel()
	if read(fstest.MapFS{"dist/README.txt": {}}) != "" {
		t.Error("there is a script where none was put in place")
	}
	const want = `/*!
The script below draws the charts. It is made of these packages of npm.

==== echarts 1.2.3 (Apache-2.0) ====

LICENSE:

  you may /* or must * / 

NOTICE:

made by many

==== zrender 4.5.6 (BSD-3-Clause) ====

LICENSE:

you may too

==== tslib 7.8.9 (0BSD) ====

LICENSE.txt:

and you
*/
draw()`
	if got := read(inPlace()); got != want {
		t.Errorf("read %q, want %q", got, want)
	}
}

// A script whose notices are missing may not be handed on, and is none.
func TestWithoutNotices(t *testing.T) {
	t.Parallel()
	for missing := range inPlace() {
		files := inPlace()
		delete(files, missing)
		if got, err := packagesIn(files); missing == name || missing == "dist/licences/echarts/NOTICE" || missing == "dist/licences/echarts/LICENSE" {
			if err != nil || len(got) != 3 {
				t.Errorf("without %s: %v, %v", missing, got, err)
			}
		} else if err == nil || read(files) != "" {
			t.Errorf("without %s there is a script, with %v", missing, got)
		}
	}
	files := inPlace()
	files["dist/package-lock.json"].Data = bytes.Replace(files["dist/package-lock.json"].Data, []byte(`"": {`), []byte(`"node_modules/more": {"version": "1.0.0"}, "": {`), 1)
	if _, err := packagesIn(files); err == nil || !strings.Contains(err.Error(), "4 packages") {
		t.Errorf("with a package of unknown licence: %v", err)
	}
}

// What is put in place has the notices that its licences ask for: section 4 of the
// Apache License 2.0 wants its text and the package's NOTICE, the BSD licences their
// copyright lines and conditions; echarts says that parts of it are from another work.
func TestNoticesInPlace(t *testing.T) {
	t.Parallel()
	script := string(Charts())
	if script == "" {
		t.Fatal("the chart script and its licences are not in place: run make setup first")
	}
	packages, err := Packages()
	if err != nil {
		t.Fatal(err)
	}
	notices, code, _ := strings.Cut(script, "*/\n")
	for _, want := range []string{
		"\nNOTICE:\n\nApache ECharts\nCopyright 2017-", "4. Redistribution.", "\nLICENSE-d3:\n", "Mike Bostock",
		"Copyright (c) 2017, Baidu Inc.", "in the documentation\n  and/or other materials provided with the distribution", "Microsoft Corporation",
		"==== echarts " + packages[0].Version + " (Apache-2.0) ====",
	} {
		if !strings.Contains(notices, want) {
			t.Errorf("the notices do not have %q", want)
		}
	}
	if !strings.Contains(code, `"`+packages[0].Version+`"`) {
		t.Errorf("the script does not say that it is version %s", packages[0].Version)
	}
	if strings.Contains(strings.ToLower(notices), "</script") {
		t.Error("the notices would end the element that they stand in")
	}
}
