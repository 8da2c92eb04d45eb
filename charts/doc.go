// Package charts holds the packages that turn results into HTML pages, which need no
// network. Nothing is worked out in them but where things stand on a page: results
// come from package study, and every number is rounded by package figure.
//
//   - [arrayodds/charts/draw]: the data behind drawings: scales, ticks, symbols, whiskers,
//     contours, and all colours;
//   - [arrayodds/charts/page]: what pages share: one way to write them, tables, the style,
//     and the scripts that draw;
//   - [arrayodds/charts/script]: the chart script, which is not kept with the source;
//   - [arrayodds/charts/compare], [arrayodds/charts/vary], [arrayodds/charts/rank],
//     [arrayodds/charts/lesson], [arrayodds/charts/replay], [arrayodds/charts/fit],
//     [arrayodds/charts/size]: one
//     page each, named as the command that writes it;
//   - [arrayodds/charts/sheet]: what compare writes to hand to a customer, without a script;
//   - [arrayodds/charts/chartstest]: what tests of pages share;
//   - [arrayodds/charts/headless]: a browser to test with.
//
// # To add a page
//
// Make a package that embeds the study's result in a type of its own and has one
// exported function, Write; package page says how. Then name Write in the list of
// output formats of the commands.
//
// # To add a chart
//
// Make a file in the package of its page with a method that returns a draw.Chart, and
// add it to the page's charts. What neither package draw nor the chart script can draw
// wants a draw.Renderer, and a function of its name in the page's script.
//
// # The chart script
//
// Pages embed the npm package echarts, which make setup puts in place. A program built
// without it writes pages without charts, which say so.
package charts
