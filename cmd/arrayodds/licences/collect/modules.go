package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"arrayodds/cmd/arrayodds/licences"
)

// source is a work without its texts, and the folders in which these are looked for.
type source struct {
	licences.Work
	folders []string
}

// program is what is linked for a system.
type program struct {
	part           licences.Part
	folder, system string
}

// linked returns the modules whose packages are linked into the program for any of the
// systems, and into the engine of the desk, by their names.
func linked(systems []string) ([]source, error) {
	programs := []program{{licences.Engine, "arrayodds/cmd/desk", "js/wasm"}}
	for _, s := range systems {
		programs = append(programs, program{licences.Binary, "arrayodds/cmd/arrayodds", s})
	}
	found := map[string]*source{}
	for _, p := range programs {
		if err := p.addModules(found); err != nil {
			return nil, err
		}
	}
	var all []source
	for _, name := range slices.Sorted(maps.Keys(found)) {
		slices.Sort(found[name].Parts)
		slices.Reverse(found[name].Parts) // the program before the desk
		slices.Sort(found[name].folders)
		all = append(all, *found[name])
	}
	return all, nil
}

// addModules adds the modules of one program to those that were found.
func (p program) addModules(found map[string]*source) error {
	system, processor, ok := strings.Cut(p.system, "/")
	if !ok {
		return fmt.Errorf("found %q; right would be a system and a processor, such as linux/amd64", p.system)
	}
	c := exec.Command("go", "list", "-deps", "-json=Dir,Module", p.folder)
	c.Env = append(os.Environ(), "GOOS="+system, "GOARCH="+processor, "CGO_ENABLED=0")
	c.Stderr = os.Stderr
	out, err := c.Output()
	if err != nil {
		return fmt.Errorf("go list for %s: %w", p.system, err)
	}
	for list := json.NewDecoder(bytes.NewReader(out)); ; {
		var of struct {
			Dir    string
			Module *struct {
				Path, Version, Dir string
				Main               bool
				Replace            *struct{}
			}
		}
		if err := list.Decode(&of); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
		m := of.Module
		if m == nil || m.Main { // Go's own, or ours
			continue
		}
		if m.Replace != nil {
			return fmt.Errorf("%s is replaced in go.mod: whose licence holds?", m.Path)
		}
		s := found[m.Path]
		if s == nil {
			s = &source{Work: licences.Work{Name: m.Path, Version: m.Version, Kind: licences.Module}}
			found[m.Path] = s
		}
		if !slices.Contains(s.Parts, p.part) {
			s.Parts = append(s.Parts, p.part)
		}
		// A package may have a licence of its own, and so may a folder that it is in.
		for dir := of.Dir; !slices.Contains(s.folders, dir); dir = filepath.Dir(dir) {
			s.folders = append(s.folders, dir)
			if dir == m.Dir {
				break
			}
		}
	}
}

// goEnv returns what the Go command has for a variable.
func goEnv(name string) (string, error) {
	out, err := exec.Command("go", "env", name).Output()
	if err != nil {
		return "", fmt.Errorf("go env %s: %w", name, err)
	}
	return strings.TrimSpace(string(out)), nil
}
