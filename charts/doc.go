// Package charts turns results into HTML pages that need no network. The report of
// a comparison has a summary in words, four charts, the tables with every figure,
// the assumptions and the cautions; the other pages are built alike.
//
// # What goes in
//
// A [Report] is the site, what was asked of the simulation, an [Outcome] for
// each choice and the list of assumptions. [Report.WriteHTML] writes the page;
// the same report always gives the same bytes.
//
// A [Fitted] is what was found of a fleet's record; [Fitted.WriteHTML] writes its
// page: the laws to paste, a curve for each label with the laws over it, and the
// figures.
//
// [Varied] is one input or two over many values, [Ranked] which inputs matter,
// [Replayed] single lives with a rebuild in slow motion, [Lesson] questions that
// the reader answers first. All pages have one shell. Sliders only pick among
// figures and texts that are in the page: nothing is computed there.
//
// # The charts
//
// One file a chart. Each builds the options of an ECharts drawing as plain
// data, without functions in it: loss chances are given as their decimal
// logarithm on a linear axis, so that the ticks are ours. The page's own script
// adds what is not data: tick words, whiskers, tooltips made of text nodes.
// Labels from the site file are text everywhere and never markup.
//
// A choice has one number, colour and shape throughout; it is filled where the
// choice meets the demand and hollow where it does not.
//
// # The chart script
//
// The page embeds the npm package echarts, which is not kept with the source:
//
//	cd charts/script && npm ci --ignore-scripts --no-audit --no-fund && cp node_modules/echarts/dist/echarts.min.js dist/
//
// A program built without it writes the page without charts and says so.
//
// # Numbers
//
// Package figure rounds every number to what its interval supports.
package charts
