package atomicfile

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// undoRecord is all that it takes to have the old files back. It is written to one
// directory, and a copy to each other one.
type undoRecord struct {
	Primary string // the path of the record; as long as it is there, the old files count
	Copies  []string
	Files   []undoFile
}

// undoFile is one file of an [undoRecord].
type undoFile struct {
	Path  string
	Temp  string   // the path of the new file before it is renamed
	New   identity // of the new file
	Fresh bool     // there is no old file
	Old   string   // the second path of the old file, "" where it could be given none
}

// identity tells whether a file is still the one that it was.
type identity struct {
	Device, Inode  uint64
	Size, Modified int64 // in bytes; in nanoseconds since 1970
}

// undo is how the old files of one commit are kept.
type undo struct {
	record  undoRecord
	records []*os.File // locked, those that are written
	renamed int        // how many files have been renamed, in the order of the record
}

// prepare keeps the old files and writes the record. The files are put into the
// order in which they are to be renamed.
func (u *undo) prepare(files []*newFile) error {
	for _, n := range files {
		step("keep")
		path := hiddenPath(filepath.Dir(n.place.path), ".old")
		err := os.Link(n.place.path, path)
		if n.fresh = errors.Is(err, fs.ErrNotExist); n.fresh {
			continue
		}
		if err != nil {
			err = copyFile(n.place.path, path)
		}
		if err == nil {
			n.old = path
		}
	}
	// One whose old file cannot be kept comes last: where its renaming fails, all
	// others have theirs back.
	slices.SortStableFunc(files, func(a, b *newFile) int { return lost(a) - lost(b) })
	for _, n := range files {
		u.record.Files = append(u.record.Files, undoFile{
			Path: n.place.path, Temp: n.temp, New: identify(n.info), Fresh: n.fresh, Old: n.old,
		})
	}
	if !canLock { // nobody could tell that this run is dead
		return nil
	}
	dirs := directories(files)
	u.record.Primary = hiddenPath(dirs[0], ".undo")
	for _, dir := range dirs[1:] {
		u.record.Copies = append(u.record.Copies, hiddenPath(dir, ".undo"))
	}
	data, err := json.Marshal(u.record)
	if err != nil {
		return err
	}
	for _, path := range append(slices.Clone(u.record.Copies), u.record.Primary) {
		step("record")
		f, err := writeRecord(path, data)
		if err != nil {
			return err
		}
		u.records = append(u.records, f)
	}
	return nil
}

// lost returns 1 for a file whose old one cannot be had back, else 0.
func lost(n *newFile) int {
	if !n.fresh && n.old == "" {
		return 1
	}
	return 0
}

// writeRecord writes an undo record, which has its name only once it is whole. The
// file is locked for as long as it is open.
func writeRecord(path string, data []byte) (*os.File, error) {
	f, err := openUnnamed(filepath.Dir(path), 0o600)
	if err != nil {
		if f, err = openNamed(filepath.Dir(path), 0o600); err != nil {
			return nil, err
		}
	}
	n := &newFile{file: f}
	if leftName.MatchString(filepath.Base(f.Name())) {
		n.temp = f.Name()
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	switch {
	case err != nil:
	case n.temp == "":
		err = nameFile(f, path)
	default:
		err = os.Rename(n.temp, path)
	}
	if err != nil {
		return nil, errors.Join(err, n.discard())
	}
	return f, nil
}

// roll puts the old files of this commit back. Of a single file there is no record:
// its renaming is the last thing that can fail.
func (u *undo) roll() error {
	var err error
	for i := min(u.renamed, len(u.record.Files)) - 1; i >= 0; i-- {
		step("roll")
		err = errors.Join(err, u.record.Files[i].putBack())
	}
	return err
}

// drop removes the record, so that what stands in the places counts.
func (u *undo) drop() error {
	if u.record.Primary == "" {
		return nil
	}
	return removeIfThere(u.record.Primary)
}

// tidy removes the copies of the record and the second names of the old files. The
// next run tries again where that fails.
func (u *undo) tidy() {
	for _, path := range u.record.Copies {
		step("tidy")
		_ = removeIfThere(path)
	}
	for _, f := range u.record.Files {
		if f.Old != "" {
			step("tidy")
			_ = removeIfThere(f.Old)
		}
	}
	u.close()
}

// close unlocks the records.
func (u *undo) close() {
	for _, f := range u.records {
		_ = f.Close() // all of it is on disk
	}
}

// putBack puts the old file in the place of the new one.
func (f undoFile) putBack() error {
	switch {
	case f.Fresh:
		return removeIfThere(f.Path)
	case f.Old == "":
		return fmt.Errorf("%s is new already, and what it was could not be kept", f.Path)
	}
	return os.Rename(f.Old, f.Path)
}

// copyFile copies a file to a path at which nothing stands, with its permissions
// and, as far as may be, its owner.
func copyFile(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close() // only read from
	info, err := in.Stat()
	if err != nil {
		return err
	}
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	keepOwner(out, info)
	if err = errors.Join(err, out.Chmod(info.Mode().Perm()), out.Sync(), out.Close()); err != nil {
		return errors.Join(err, os.Remove(to))
	}
	return nil
}
