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
	files   []*recordFile
	renamed []undoFile // what it takes to undo what was done
}

// recordFile is a record on disk, which has its name only once the old files are
// kept.
type recordFile struct {
	newFile
	path string
}

// plan writes the record to disk, with the names that files will have.
func (u *undo) plan(files []*newFile) error {
	for _, n := range files {
		dir := filepath.Dir(n.place.path)
		if n.planned = n.temp; n.planned == "" {
			n.planned = hiddenPath(dir, ".tmp")
		}
		if _, err := os.Lstat(n.place.path); errors.Is(err, fs.ErrNotExist) {
			n.fresh = true
		} else {
			n.old = hiddenPath(dir, ".old")
		}
		u.record.Files = append(u.record.Files, undoFile{
			Path: n.place.path, Temp: n.planned, New: identify(n.info), Fresh: n.fresh, Old: n.old,
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
		u.files = append(u.files, f)
	}
	return nil
}

// keep gives each old file its second name, and then the record its own. The files
// are put into the order in which they are to be renamed.
func (u *undo) keep(files []*newFile) error {
	for _, n := range files {
		if n.fresh {
			continue
		}
		step("keep")
		err := os.Link(n.place.path, n.old)
		if err != nil {
			err = copyFile(n.place.path, n.old)
		}
		if err != nil {
			n.old = ""
		}
	}
	// One whose old file cannot be kept comes last: where its renaming fails, all
	// others have theirs back.
	slices.SortStableFunc(files, func(a, b *newFile) int { return lost(a) - lost(b) })
	for _, f := range u.files {
		step("record")
		if err := f.name(); err != nil {
			return err
		}
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

// writeRecord writes an undo record that is to stand at a path. The file is locked
// for as long as it is open.
func writeRecord(path string, data []byte) (*recordFile, error) {
	n, err := Place{path: path}.create()
	if err != nil {
		return nil, err
	}
	err = n.file.Chmod(0o600)
	if err == nil {
		_, err = n.file.Write(data)
	}
	if err == nil {
		err = n.file.Sync()
	}
	if err != nil {
		return nil, errors.Join(err, n.discard())
	}
	return &recordFile{*n, path}, nil
}

// name gives the record its name.
func (f *recordFile) name() error {
	if f.temp == "" {
		return nameFile(f.file, f.path)
	}
	return os.Rename(f.temp, f.path)
}

// roll puts the old files of this commit back. Of a single file there is nothing to
// put back: its renaming is the last thing that can fail.
func (u *undo) roll() error {
	var err error
	for _, f := range slices.Backward(u.renamed) {
		step("roll")
		err = errors.Join(err, f.putBack())
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
		if f.Old == "" {
			continue
		}
		// An open file gives its room back once it is closed, which takes longer than
		// to remove its name.
		if old, err := os.Open(f.Old); err == nil {
			defer old.Close() // not read from
		}
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
	for _, f := range u.files {
		_ = f.discard() // all of it is on disk
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
