package main

import (
	"fmt"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"arrayodds/cmd/arrayodds/licences"

	"github.com/google/licensecheck"
)

var (
	// licenceFile matches the names of files with a licence, notice those of files
	// that must be handed on with it, thirdParty those of folders that have licences of
	// what was copied into a work.
	licenceFile = regexp.MustCompile(`(?i)^(licen[cs]es?|copying|unlicense)([-_.].*)?$|[-_.]licen[cs]e(\.\w+)?$`)
	notice      = regexp.MustCompile(`(?i)^(notice|patents|copyright)([-_.].*)?$`)
	thirdParty  = regexp.MustCompile(`(?i)^(third[-_]?party.*|licen[cs]es)$`)
)

// leastCovered is the least share of the words of a text, in per cent, that a licence
// must be for the text to be that licence. The rest are names of holders.
const leastCovered = 75

// read returns the work with the texts in its folders.
func (s source) read() (licences.Work, error) {
	w := s.Work
	root := s.folders[0] // the shortest is the first
	for _, dir := range s.folders {
		if err := addTexts(&w, root, dir, leastCovered); err != nil {
			return w, err
		}
	}
	entries, err := os.ReadDir(root)
	if err != nil {
		return w, err
	}
	// What others gave to a work may stand under a few words of their own, which are
	// handed on too; the licence of the work itself must be a known one.
	for _, e := range entries {
		if e.IsDir() && thirdParty.MatchString(e.Name()) && w.Kind == licences.Module {
			if err := addTexts(&w, root, filepath.Join(root, e.Name()), 0); err != nil {
				return w, err
			}
		}
	}
	slices.Sort(w.Licences)
	w.Licences = slices.Compact(w.Licences)
	return w, complete(w)
}

// addTexts adds the licences and notices of a folder to a work. least is what share of
// a licence's text must be known, in per cent.
func addTexts(w *licences.Work, root, dir string, least float64) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	within, err := filepath.Rel(root, dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		is := licenceFile.MatchString(e.Name())
		if e.IsDir() || strings.HasSuffix(e.Name(), ".go") || !is && !notice.MatchString(e.Name()) {
			continue
		}
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			return err
		}
		w.Texts = append(w.Texts, licences.Text{File: path.Join(filepath.ToSlash(within), e.Name()), Text: string(data)})
		if !is {
			continue
		}
		names, err := identify(data, least)
		if err != nil {
			return fmt.Errorf("%s: %s: %w", w.Name, filepath.Join(dir, e.Name()), err)
		}
		w.Licences = append(w.Licences, names...)
	}
	return nil
}

// identify returns the SPDX identifiers of the licences that a text is.
func identify(text []byte, least float64) (names []string, err error) {
	of := licensecheck.Scan(text)
	if of.Percent < least {
		return nil, fmt.Errorf("no known licence: %.0f %% of the text is one; right would be %.0f %% or more", of.Percent, least)
	}
	for _, m := range of.Match {
		if !m.IsURL {
			names = append(names, m.ID)
		}
	}
	return names, nil
}

// complete returns an error where a work has no licence or no text.
func complete(w licences.Work) error {
	if len(w.Licences) == 0 || len(w.Texts) == 0 || slices.Contains(w.Licences, "") {
		return fmt.Errorf("%s %s has no licence that could be found, with %d texts", w.Name, w.Version, len(w.Texts))
	}
	return nil
}
