// Package replay tells single lives of a choice: what befell which drive, hour
// by hour, and what footage there was.
package replay
