// Package atomicfile writes several files, all or none, and whatever else a path
// may lead to.
//
// [Find] tells where a path leads. A regular file, and one that is not there yet,
// is replaced as a whole; a symbolic link to it stays a link. A character device
// (/dev/null, a terminal), a pipe and whatever a descriptor of this process leads
// to (/dev/stdout, /dev/fd/3) is a stream: it is written to and never replaced, and
// so text goes to where the descriptor stands, behind what is there.
//
// # Order
//
// [Stage] writes each file, without a name where the system has files without one,
// and syncs it to disk. [Staged.WriteStreams] writes the streams. The caller then
// writes whatever else can fail. [Staged.Commit] does what is left:
//
//  1. It locks the directories that the files are to stand in, in one order for all
//     runs, so that of two runs the later one wins whole.
//  2. It looks there for what a dead run left, puts back the files that such a run
//     was about to replace, and removes the rest.
//  3. It writes a record of all names, old and new, to disk: the undo record. For a
//     single file there is none.
//  4. It gives each new file a temporary name in its directory, each old file a
//     second name, and the undo record its own, in the directory of the first file.
//     In the other directories a copy leads to it.
//  5. It renames each file to the name that it is to have.
//  6. It removes the undo record. From here on the new files count. Then go the
//     second names of the old ones.
//
// # Promise
//
// A reader sees each file as it was or as it is to be, never a part of one.
//
// On an error, or where the context is done before step 2, every file is as it was
// and nothing else is left. A rename that fails after others is undone with them.
// What was written to streams stays written.
//
// Where the process is killed at any moment (SIGKILL, out of memory), then
//
//   - before step 4 nothing is left on Linux, where the file system has files
//     without a name (ext4, XFS, Btrfs, tmpfs); elsewhere temporary files are;
//   - in step 5, which takes some millionths of a second a file, some files may be
//     new and others old. The undo record says so, and the next run that writes
//     into one of these directories puts the old ones back before it goes on. A file
//     that somebody changed since stays as it is;
//   - in the other steps all files are old, up to step 6, or all are new, and the
//     next run that writes into these directories removes the names that are left.
//
// A run removes only what a dead run of the same user left: a living one holds a
// lock on its files. Locks are those of flock. On systems without it (Windows and
// others) and in file systems without it, runs do not wait for each other, a
// killed run's temporary files stay, and so does a mixture of old and new files
// that a kill in step 5 leaves. A directory that somebody else keeps locked is
// waited for some seconds only, and then gone into without.
//
// After a loss of power each file is whole, since it was synced before it got its
// name; the rest is as the file system keeps the order of renames.
//
// A file that is replaced leaves its permissions to the new one, and its owner and
// group where the process may give files away (root may). Access control lists and
// extended attributes are those that the directory gives to new files. Other hard
// links to the old file keep the old content. Where no hard link can be made, a
// copy keeps the old content in step 4.
package atomicfile
