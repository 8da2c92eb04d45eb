// Package form has a site file as the fields of a form, and changes of the form as edits
// of the file's text. It knows nothing of pages.
package form
