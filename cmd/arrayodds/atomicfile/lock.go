package atomicfile

import (
	"cmp"
	"context"
	"errors"
	"os"
	"slices"
	"time"
)

const (
	lockPatience = 5 * time.Second      // for what somebody else keeps locked
	lockInterval = 2 * time.Millisecond // between two tries
)

var errLocked = errors.New("somebody else has locked it")

// waitLock locks a file. The error is that of the context, [errLocked] where another
// keeps the lock, or that there are no locks.
func waitLock(ctx context.Context, f *os.File) error {
	for end := time.Now().Add(lockPatience); ; {
		free, err := tryLock(f)
		if free || err != nil {
			return err
		}
		if time.Now().After(end) {
			return errLocked
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(lockInterval):
		}
	}
}

// directoryLocks are the directories that this run has locked.
type directoryLocks struct {
	open []*os.File
	all  bool // every one that was asked for
}

// lockDirectories locks directories, in one order for all runs: two that want the
// same ones do not wait for each other. One that cannot be locked is gone without.
// The error is that of the context.
func lockDirectories(ctx context.Context, dirs []string) (*directoryLocks, error) {
	type directory struct {
		*os.File
		identity
	}
	locks := &directoryLocks{all: canLock}
	if !canLock {
		return locks, nil
	}
	var wanted []directory
	for _, dir := range dirs {
		f, err := os.Open(dir)
		if err != nil { // it may be written to and not read
			locks.all = false
			continue
		}
		locks.open = append(locks.open, f)
		info, err := f.Stat()
		if err != nil {
			locks.all = false
			continue
		}
		wanted = append(wanted, directory{f, identify(info)})
	}
	slices.SortFunc(wanted, func(a, b directory) int {
		return cmp.Or(cmp.Compare(a.Device, b.Device), cmp.Compare(a.Inode, b.Inode))
	})
	for i, d := range wanted {
		if i > 0 && d.Device == wanted[i-1].Device && d.Inode == wanted[i-1].Inode {
			continue // by another way, as two mounts are: the second lock would wait for the first
		}
		if err := waitLock(ctx, d.File); ctx.Err() != nil {
			locks.release()
			return nil, ctx.Err()
		} else if err != nil {
			locks.all = false
		}
	}
	return locks, nil
}

// release unlocks the directories.
func (l *directoryLocks) release() {
	for _, f := range l.open {
		_ = f.Close() // only locked
	}
}

// syncDirectory has the names of a directory written to disk. What has no means for
// that is left to the file system.
func syncDirectory(dir string) {
	if f, err := os.Open(dir); err == nil {
		_ = f.Sync()
		_ = f.Close()
	}
}
