package chartstest

import (
	"bytes"
	"regexp"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// Pages prints what is shown as the page itself asks for, and returns the number of
// sheets of paper.
func (b *Tab) Pages() int {
	b.t.Helper()
	own := true
	ownSize := func(p *page.PrintToPDFParams) { p.PreferCSSPageSize = &own }
	pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(ownSize, chromedp.PDFPrintBackground()))
	if err != nil {
		b.t.Fatalf("printing: %v", err)
	}
	if !bytes.HasPrefix(pdf, []byte("%PDF-")) {
		b.t.Fatal("what was printed is no PDF")
	}
	return len(pdfPage.FindAll(pdf, -1))
}

// pdfPage matches a page of a PDF, whose objects the browser does not pack.
var pdfPage = regexp.MustCompile(`/Type\s*/Page\b[^s]`)
