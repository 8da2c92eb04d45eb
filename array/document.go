package array

import "time"

// A Document is what a page that is handed to somebody says of itself, beside its
// figures.
type Document struct {
	Customer   string    // for whom it is; empty: not given
	PreparedBy string    // who is answerable for it; empty: not given
	Reference  string    // by which it is filed; empty: not given
	ValidUntil time.Time // its last day, at midnight UTC; zero: not given
	Logo       Logo      // zero: none
}

// A Logo is a picture that goes into a page as it is.
type Logo struct {
	MediaType     string // "image/png" or "image/jpeg"
	Bytes         []byte // of the file
	Width, Height int    // pixels
}

// Given reports whether there is a logo.
func (l Logo) Given() bool { return len(l.Bytes) > 0 }
