// Package chartstest is what tests of pages share.
//
// [Decode] reads the options of a chart, so that a test says which points, intervals,
// labels and tooltips stand for given results; [CheckGolden] holds the whole of one
// item of each kind against a file. [CheckPage] holds the text of a page against what
// any page must be, and [CheckInBrowser] the page as a browser shows it. [Sample] is an
// invented comparison, [Hostile] a label that is markup.
//
// A package that looks at pages in a browser has
//
//	func TestMain(m *testing.M) { chartstest.Main(m) }
//
// so that its tests share one. They are left out under -short.
package chartstest
