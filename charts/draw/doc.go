// Package draw builds the data behind the charts of the pages: the options of an
// ECharts drawing, without functions in them. What is no data is added by the
// scripts of package page, which the options call by name.
//
// # A chart
//
// A [Chart] is a drawing with the words around it. Its options come of [Options],
// which puts two axes and any number of series together:
//
//   - [Symbol.Series], [LineSeries], [VerticalLine] and [HorizontalLine] are points
//     and lines;
//   - a [Renderer] is what the chart script has not: whiskers, bands, cells, contours.
//     A new one is a Renderer here or in the package of its page, and a function of
//     the same name in the page's script;
//   - [RowEstimate] is an estimate in a row, a point with its interval.
//
// # Scales
//
// Chances stand as their decimal logarithms on a plain axis, a [LogAxis], so that the
// ticks are ours; how many times one thing is another on a [RatioAxis]. [XAxis] and
// [YAxis] are plain ones, [RowAxis] has a name a row. [LogTicks] and [LinearTicks]
// choose round values, and [ContourLines] finds where a map has a level.
//
// An estimate lies on a scale of chances as a [Whisker], which says how much of its
// interval is drawn.
//
// # Looks
//
// All colours and shapes stand in this package. A [Mark] is how one choice is known
// throughout a page: a number, a colour and a shape.
package draw
