// Package page is what all pages share: the one way in which they are written, the
// style, the parts of their templates, tables, and the scripts that draw.
//
// # A new page
//
// A page is a package of its own, with one function that writes it:
//
//	func Write(w io.Writer, f study.Forecast) error { return page.Write(w, forecast{f}.contents()) }
//
// What its template is given is a struct that embeds a [Page]. The template, which
// [Template] parses, begins with "head" and ends with "scripts"; between them it may
// call on the parts of parts.html:
//
//   - answer: the heading, the lead and the short answer;
//   - charts: all drawings; drawings: some of them, by the function drawings, see [Drawings];
//   - table: a [Table];
//   - badge: a mark as a picture with its number;
//   - assumptions and cautions: what stands at the end of a page, see [NewFooter].
//
// A template has the fields of what it is given and the functions of this package, and
// calls no method.
//
// Each drawing can be focused, and its tooltips be stepped through by arrows and heard: a
// point that has a tip has it in both ways.
//
// Nothing on a page is loaded from elsewhere, and nothing is computed there: what
// sliders pick among stands in the page. Labels from the site file are text
// everywhere and never markup. The same results give the same bytes.
//
// # Words and numbers
//
// The cells of tables round each number to what its interval supports, and keep it in
// one line. [OddsText], [Method] and [ServiceLife] write what all pages say alike.
package page
