// Package headless finds a Chromium or one of its kin, and opens pages in it
// without a window, for tests.
//
// [Find] tells where there is one, [Open] starts it, and each of its tabs shows a page.
// The program in fetch, which make browser runs, gets one where there is none.
package headless

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
)

// system is what Find asks the machine. Tests make up others.
type system struct {
	goos     string
	getenv   func(string) string
	lookPath func(string) (string, error) // as exec.LookPath
	isFile   func(string) bool
	fetched  string // as Fetched; empty outside a module
}

func thisSystem() system {
	s := system{goos: runtime.GOOS, getenv: os.Getenv, lookPath: exec.LookPath, isFile: isFile}
	s.fetched, _ = Fetched()
	return s
}

func isFile(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.Mode().IsRegular()
}

// commands are the names that packages give a browser on the search path, the
// commonest first.
var commands = []string{
	"chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome",
	"chromium-headless-shell", "chrome-headless-shell", "headless_shell", "google-chrome-beta", "google-chrome-unstable",
	"microsoft-edge", "microsoft-edge-stable", "msedge",
}

// macPaths are the applications' programs below /Applications or the same
// folder of a user.
var macPaths = []string{
	"Google Chrome.app/Contents/MacOS/Google Chrome",
	"Chromium.app/Contents/MacOS/Chromium",
	"Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
}

// windowsPaths are the programs below each of the windowsRoots.
var (
	windowsRoots = []string{"ProgramFiles", "ProgramFiles(x86)", "LocalAppData"}
	windowsPaths = []string{
		`Google\Chrome\Application\chrome.exe`,
		`Chromium\Application\chrome.exe`,
		`Microsoft\Edge\Application\msedge.exe`,
	}
)

// errNone tells what to do about having no browser.
var errNone = errors.New("no browser found: run make browser, or install Chromium or Chrome, or set CHROME to the path of one")

// Find returns the path of a browser: the one that the environment variable
// CHROME names, as a path or a command; else the one that fetch got; else the
// first that is where systems have it.
func Find() (string, error) { return thisSystem().find() }

func (s system) find() (string, error) {
	if name := s.getenv("CHROME"); name != "" {
		path, err := s.lookPath(name)
		if err != nil {
			return "", fmt.Errorf("the environment variable CHROME names a browser that is not there: %w", err)
		}
		return path, nil
	}
	if s.fetched != "" && s.isFile(s.fetched) {
		return s.fetched, nil
	}
	for _, name := range commands {
		if path, err := s.lookPath(name); err == nil {
			return path, nil
		}
	}
	for _, path := range s.installed() {
		if s.isFile(path) {
			return path, nil
		}
	}
	return "", errNone
}

// installed lists where installers put browsers that are not on the search path.
func (s system) installed() (paths []string) {
	switch s.goos {
	case "darwin":
		for _, path := range macPaths {
			paths = append(paths, "/Applications/"+path)
			if home := s.getenv("HOME"); home != "" {
				paths = append(paths, home+"/Applications/"+path)
			}
		}
	case "windows":
		for _, path := range windowsPaths {
			for _, root := range windowsRoots {
				if folder := s.getenv(root); folder != "" {
					paths = append(paths, folder+`\`+path)
				}
			}
		}
	}
	return paths
}

// Fetched returns the path at which fetch puts a browser that it unpacks, in
// the module that the working directory is in.
func Fetched() (string, error) {
	folder, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for !isFile(filepath.Join(folder, "go.mod")) {
		parent := filepath.Dir(folder)
		if parent == folder {
			return "", errors.New("no go.mod in the working directory or above it")
		}
		folder = parent
	}
	return filepath.Join(folder, "charts", "headless", "packed", "dist", "chromium.sh"), nil
}
