package folder

import (
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"

	"arrayodds/array/site"
	"arrayodds/array/site/axis"
)

// siteFiles reads each site file once, whoever asks first.
type siteFiles struct {
	fsys   fs.FS
	folder string
	opts   []site.Option

	mu     sync.Mutex
	byPath map[string]*siteFile
}

// siteFile is a site file that was asked for.
type siteFile struct {
	once sync.Once
	file *site.File
	err  error
}

// read returns a site file; nil where something is wrong with it, which [siteFiles.faults]
// has.
func (s *siteFiles) read(p string) *site.File {
	s.mu.Lock()
	if s.byPath == nil {
		s.byPath = map[string]*siteFile{}
	}
	f := s.byPath[p]
	if f == nil {
		f = &siteFile{}
		s.byPath[p] = f
	}
	s.mu.Unlock()
	f.once.Do(func() { f.file, f.err = s.open(p) })
	return f.file
}

func (s *siteFiles) open(p string) (*site.File, error) {
	from, err := s.fsys.Open(p)
	if err != nil {
		return nil, fileError(s.folder, p, err)
	}
	defer from.Close() // only read from
	beside, err := fs.Sub(s.fsys, path.Dir(p))
	if err != nil {
		return nil, fileError(s.folder, p, err)
	}
	source, err := axis.Open(from, path.Join(s.folder, p), append(slices.Clip(s.opts), site.Beside(beside))...)
	if err != nil {
		if _, ok := errors.AsType[site.Errors](err); !ok {
			err = fileError(s.folder, p, err)
		}
		return nil, err
	}
	return source.File(), nil
}

// faults returns what is wrong with the site files, in the order of their paths.
func (s *siteFiles) faults() (all []error) {
	var paths []string
	for p := range s.byPath {
		paths = append(paths, p)
	}
	slices.Sort(paths)
	for _, p := range paths {
		if err := s.byPath[p].err; err != nil {
			all = append(all, err)
		}
	}
	return all
}

// count returns how many site files were asked for.
func (s *siteFiles) count() int { return len(s.byPath) }

// notingFS notes the files that are opened in it.
type notingFS struct {
	fs.FS
	mu     sync.Mutex
	opened map[string]fs.FileInfo
}

// Open opens a file and notes it.
func (n *notingFS) Open(p string) (fs.File, error) {
	f, err := n.FS.Open(p)
	if err != nil {
		return nil, err
	}
	if info, err := f.Stat(); err == nil && !info.IsDir() {
		n.mu.Lock()
		defer n.mu.Unlock()
		if n.opened == nil {
			n.opened = map[string]fs.FileInfo{}
		}
		n.opened[p] = info
	}
	return f, nil
}

// Stat looks at a file without opening it.
func (n *notingFS) Stat(p string) (fs.FileInfo, error) { return fs.Stat(n.FS, p) }

// all returns what was opened, by path.
func (n *notingFS) all() (all []Opened) {
	for p, info := range n.opened {
		all = append(all, Opened{p, info})
	}
	slices.SortFunc(all, func(a, b Opened) int { return strings.Compare(a.Path, b.Path) })
	return all
}
