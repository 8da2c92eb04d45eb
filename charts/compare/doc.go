// Package compare writes the report of a comparison.
//
// A summary in words comes first: which choices hold the footage, safest first, and
// what the next step up costs and buys. Then come four charts, one a file, and every
// figure in tables. Rows and columns keep the choices in the order of the site file,
// by whose number, colour and shape each is known throughout.
package compare
