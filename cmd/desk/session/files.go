package session

import (
	"bytes"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"sync"
	"time"
)

// What one request may bring with it. The readers of each kind of file have bounds of
// their own.
const (
	mostFiles = 256
	mostBytes = 256 << 20
)

// checkFiles returns an error for more files than a request may bring.
func checkFiles(files map[string][]byte) error {
	size := 0
	for _, data := range files {
		size += len(data)
	}
	if len(files) > mostFiles || size > mostBytes {
		return fmt.Errorf("found %d files of %d bytes in all; right would be at most %d of %d", len(files), size, mostFiles, mostBytes)
	}
	return nil
}

// memory is a file system of files by their names, without folders. It notes what it was
// asked for in vain.
type memory struct {
	files   map[string][]byte
	mu      sync.Mutex
	missing map[string]bool
}

// newMemory returns the files of a request that a site may name, which its parts are not.
func newMemory(files map[string][]byte) *memory {
	m := &memory{files: maps.Clone(files), missing: map[string]bool{}}
	maps.DeleteFunc(m.files, func(name string, _ []byte) bool { return isPart(name) })
	return m
}

// same reports whether two file systems hold the same.
func (m *memory) same(as *memory) bool { return maps.EqualFunc(m.files, as.files, bytes.Equal) }

// wanted returns the names that were asked for in vain, in their order.
func (m *memory) wanted() []string {
	m.mu.Lock()
	defer m.mu.Unlock()
	return slices.Sorted(maps.Keys(m.missing))
}

// Open opens a file.
func (m *memory) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	data, ok := m.files[name]
	if !ok {
		m.mu.Lock()
		defer m.mu.Unlock()
		m.missing[name] = true
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return &memoryFile{bytes.NewReader(data), fileInfo{path.Base(name), int64(len(data))}}, nil
}

// memoryFile is an open file.
type memoryFile struct {
	*bytes.Reader
	info fileInfo
}

// Stat returns what is known of the file.
func (f *memoryFile) Stat() (fs.FileInfo, error) { return f.info, nil }

// Close does nothing.
func (f *memoryFile) Close() error { return nil }

type fileInfo struct {
	name string
	size int64
}

func (i fileInfo) Name() string       { return i.name }
func (i fileInfo) Size() int64        { return i.size }
func (i fileInfo) Mode() fs.FileMode  { return 0o444 }
func (i fileInfo) ModTime() time.Time { return time.Time{} }
func (i fileInfo) IsDir() bool        { return false }
func (i fileInfo) Sys() any           { return nil }
