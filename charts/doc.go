// Package charts turns the results of a comparison into one HTML page that
// needs no network: a summary in words, four charts, the tables with every
// figure, the assumptions and the cautions.
//
// # What goes in
//
// A [Report] is the site, what was asked of the simulation, an [Outcome] for
// each choice and the list of assumptions. [Report.WriteHTML] writes the page;
// the same report always gives the same bytes.
//
// A [Fitted] is what was found of a fleet's record; [Fitted.WriteHTML] writes its
// page: the laws to paste, a curve for each label with the laws over it, and the
// figures. Both pages have one shell.
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
