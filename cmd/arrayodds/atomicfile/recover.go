package atomicfile

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// maxRecord is how many bytes of an undo record are read.
const maxRecord = 1 << 20

// recoverDirectory undoes what dead runs have left half done in a directory that
// this run has locked, and removes the names that they left. What cannot be undone,
// since it is another user's or somebody needs it, stays as it is.
func recoverDirectory(ctx context.Context, dir string) {
	d, err := os.Open(dir)
	if err != nil {
		return
	}
	defer d.Close() // only read from
	all, err := d.Readdirnames(-1)
	if err != nil {
		return
	}
	var left []string
	clean := true
	for _, name := range all {
		switch path := filepath.Join(dir, name); {
		case !leftName.MatchString(name):
		case strings.HasSuffix(name, ".undo"):
			clean = undoDead(ctx, path) && clean
		default:
			left = append(left, path)
		}
	}
	if !clean { // old files may be wanted yet
		return
	}
	for _, path := range left {
		removeDead(path)
	}
}

// undoDead puts back the old files of a dead run by its record, and removes this.
// It reports whether that is done.
func undoDead(ctx context.Context, path string) (done bool) {
	record, f, err := readRecord(ctx, path)
	if errors.Is(err, fs.ErrNotExist) { // another run was faster
		return true
	}
	if err != nil {
		return false
	}
	defer f.Close() // only read from
	if path != record.Primary {
		switch _, err := os.Lstat(record.Primary); {
		case errors.Is(err, fs.ErrNotExist): // the new files count, or none was renamed
			return removeIfThere(path) == nil
		case err != nil:
			return false
		}
		return undoDead(ctx, record.Primary) && removeIfThere(path) == nil
	}
	for _, f := range record.Files {
		if !f.undoDead() {
			return false
		}
	}
	if removeIfThere(record.Primary) != nil {
		return false
	}
	for _, path := range record.Copies {
		if filepath.Dir(path) != filepath.Dir(record.Primary) {
			_ = removeIfThere(path) // the next run into its directory does, if this one may not
		}
	}
	return true
}

// undoDead puts the old file in its place if the new one stands there unchanged, and
// removes the temporary names. It reports whether that is done.
func (f undoFile) undoDead() bool {
	now, err := os.Lstat(f.Path)
	switch {
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return false
	case err == nil && identify(now) == f.New && (f.Fresh || f.Old != ""):
		if err := f.putBack(); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return false
		}
	}
	if removeIfThere(f.Temp) != nil {
		return false
	}
	return f.Old == "" || removeIfThere(f.Old) == nil
}

// readRecord reads an undo record and locks it. Only what this user wrote is
// believed, and only where all its names are of the kind that a run gives.
func readRecord(ctx context.Context, path string) (undoRecord, *os.File, error) {
	untrusted := errors.New("no undo record of this user")
	before, err := os.Lstat(path)
	if err != nil {
		return undoRecord{}, nil, err
	}
	if !private(before) {
		return undoRecord{}, nil, untrusted
	}
	f, err := os.Open(path)
	if err != nil {
		return undoRecord{}, nil, err
	}
	record, err := func() (record undoRecord, err error) {
		if err := waitLock(ctx, f); err != nil {
			return record, err
		}
		// Whoever had locked it may have removed it.
		now, err := os.Lstat(path)
		if err != nil {
			return record, err
		}
		opened, err := f.Stat()
		if err != nil || !os.SameFile(opened, now) || !private(opened) {
			return record, untrusted
		}
		data, err := io.ReadAll(io.LimitReader(f, maxRecord))
		if err != nil {
			return record, err
		}
		if err := json.Unmarshal(data, &record); err != nil || !record.plausible(path) {
			return record, untrusted
		}
		return record, nil
	}()
	if err != nil {
		return undoRecord{}, nil, errors.Join(err, f.Close())
	}
	return record, f, nil
}

// plausible reports whether a record that stands at a path could be a run's.
func (r undoRecord) plausible(path string) bool {
	known := path == r.Primary
	for _, other := range append(r.Copies, r.Primary) {
		known = known || path == other
		if !filepath.IsAbs(other) || !leftName.MatchString(filepath.Base(other)) || !strings.HasSuffix(other, ".undo") {
			return false
		}
	}
	for _, f := range r.Files {
		for _, hidden := range []string{f.Temp, f.Old} {
			if hidden != "" && (filepath.Dir(hidden) != filepath.Dir(f.Path) || !leftName.MatchString(filepath.Base(hidden))) {
				return false
			}
		}
	}
	return known
}

// removeDead removes a file that no living run has locked.
func removeDead(path string) {
	info, err := os.Lstat(path)
	if err != nil || !info.Mode().IsRegular() {
		return
	}
	f, err := os.Open(path)
	if err != nil {
		return
	}
	defer f.Close() // only read from
	if free, err := tryLock(f); err == nil && free {
		_ = removeIfThere(path) // the next run tries again
	}
}
