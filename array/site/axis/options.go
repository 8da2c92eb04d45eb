package axis

import (
	"fmt"
	"slices"
	"strconv"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/toml"
)

// Option returns the settings of an option of the file. The error is of type
// [site.Errors], and its place is in the file.
func (s *Source) Option(o array.Option) (all []Setting, err error) {
	var errs site.Errors
	for _, set := range o.Set {
		a, err := s.Axis(set.Path+"="+set.Value, 2)
		if err == nil && len(a.Values) != 1 {
			err = site.Errors{{Found: fmt.Sprintf("%d values", len(a.Values)), Right: "one value"}}
		}
		if err == nil && a.targets[0].steps[0].Key == "choices" {
			err = site.Errors{{Found: "a setting of choices", Right: "a path of care, recorder, hazards, drives or cameras: designs are made anew"}}
		}
		if err != nil {
			var found site.Errors
			if found, _ = err.(site.Errors); found == nil {
				return nil, err
			}
			e := found[0]
			errs = append(errs, site.Error{File: s.doc.Name, Line: set.Line, Key: "options." + o.Label + ".set." + set.Path, Found: e.Found, Right: e.Right, Mean: e.Mean})
			continue
		}
		all = append(all, a.Set(a.Values[0]))
	}
	if errs != nil {
		return nil, errs
	}
	if _, err := s.with(all, site.Reading{Mute: true}); err != nil {
		return nil, err
	}
	return all, nil
}

// WithChoices returns the source as if the file had these choices for its own, with care
// and recorder of the site, and these values; ranges of what is set are no more. Labels must
// be no two alike.
func (s *Source) WithChoices(choices []array.Choice, set ...Setting) (*Source, error) {
	root, err := s.tree(set)
	if err != nil {
		return nil, err
	}
	o := toml.NewOverlay(root)
	list := &toml.Node{Kind: toml.ListNode}
	for _, c := range choices {
		t := toml.NewTable(0, 0)
		text := func(key, value string) { t.Add(key, &toml.Node{Kind: toml.StringNode, Text: value}) }
		number := func(key string, n int) { t.Add(key, &toml.Node{Kind: toml.IntegerNode, Text: strconv.Itoa(n)}) }
		text("label", c.Label)
		text("drive", c.Drive.Label)
		text("layout", c.Layout.String())
		number("drives", c.Drives)
		number("groups", c.Groups)
		number("hot_spares", c.HotSpares)
		list.Items = append(list.Items, t)
	}
	o.Set([]toml.Step{{Key: "choices"}}, list, 0)
	d, errs := s.doc.Rebased(o.Root)
	if len(errs) > 0 {
		return nil, placed(errs, set)
	}
	return &Source{d}, nil
}

// Text returns the source as the text of a site file. Comments are not kept; a schedule
// is still named.
func (s *Source) Text() string { return s.doc.Root.Write() }

// checkOptions finds what is wrong with the options of the file.
func (s *Source) checkOptions() error {
	var errs site.Errors
	for _, o := range s.File().Site.Options {
		if _, err := s.Option(o); err != nil {
			found, ok := err.(site.Errors)
			if !ok {
				return err
			}
			errs = append(errs, found...)
		}
	}
	if errs == nil {
		return nil
	}
	slices.SortStableFunc(errs, func(a, b site.Error) int { return a.Line - b.Line })
	return errs
}
