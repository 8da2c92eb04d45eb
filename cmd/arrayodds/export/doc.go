// Package export writes the results of commands to files. [Formats] lists the
// formats, with one function for each type of result that a format can be written
// of; a new format is a row there.
//
//   - html: the page of the command, by a package below charts.
//   - sheet: one page of a comparison or a search to hand to a customer, by package charts/sheet.
//   - json: every figure, for programs. A format number goes with it, and within it
//     a key keeps its meaning and its place; package schema has what each is.
//   - csv: one row a choice, a choice and value, or a design, for whatever reads tables.
//   - xlsx: a workbook of the choices, the loss over the years, the assumptions and
//     the cautions, or of the arrays of a fleet, its models of drives and the cautions, in
//     which figures are numbers.
//
// Each function writes to an [io.Writer] and opens no file. A figure that is not
// known (a cost without prices, what rests on cameras at a site without them, every
// estimate of a choice that was too busy to be simulated and so stopped by "bound")
// is null or an empty cell, never 0 and never NaN. Any other NaN, and an infinite
// figure that is not an open end of an interval, is an error. The same result gives
// the same bytes.
//
// # The JSON of a search
//
// That of choose has the labels recommended and runner_up (null where there is none),
// what it says, designs_searched and rounds_began_with; finalists, each an object as
// compare writes a choice, with the labels of its options; front, every design that
// nothing beats, as entered; and next_money, what money buys most for the choice today.
//
// # The doubt
//
// In the JSON of compare loss_in_all and missing_clip_in_all are means over all that is
// uncertain, and doubt has the 5, 50 and 95 % points of the loss chance over so many
// settings, with the inputs that bear on the choice, the one that moves it most first, and
// factor, how many times the chance at its high end is that at its low one. safer has for
// each pair of choices the share of the settings in which the first loses footage less
// often, and left_out what the hazards that the file leaves out would do. All are null in
// a plain run.
//
// # The JSON of a sizing
//
// Beside format, site and service_life_hours it has
//
//   - demand: write_bytes_per_second on average and peak_bytes_per_second with every
//     camera recording; needed_bytes, at the ends of estimated bit rates
//     needed_bytes_at_low_bitrate and _at_high_bitrate; growth, a share, and with it
//     room_bytes, which is what has to be held;
//   - cameras: of each group label, count, bits_per_second, recorded_share,
//     retention_days, write_bytes_per_second, needed_bytes;
//   - recorder: bays, hot_spares, what is left of the link and of the write limit at the
//     peak (link_free_share, write_limit_free_share; negative where it is too much),
//     licence_cost;
//   - designs: the fewest drives of each model in each layout (drive, layout, drives,
//     groups, hot_spares; drives_at_low_bitrate, drives_at_high_bitrate), whether its
//     groups are customary and it fits the bays, whether it is suggested, usable_bytes,
//     could_reach_days of each group of cameras, purchase_cost, watts,
//     energy_kwh_per_year, and the workload of one drive: footage_, scrub_ and
//     rebuild_bytes_per_year and share_of_rating;
//   - short: of each layout that does not fit the most that the bays hold (drive, drives,
//     groups, customary, usable_bytes, retention_days), and what would be enough, each
//     by itself: drive_bytes, bays, bitrate_share;
//   - changes: label and room_bytes of somewhat more footage, and the drives that each
//     suggestion takes for it;
//   - left_out: drives that were not tried, and why.
//
// # The JSON of a fleet
//
// Beside format and seed it has
//
//   - fleet, the folder's name; sites, how many site files; arrays_lost, _degraded and
//     _whole; expected_losses_30_days, how many of the arrays that are not lost yet are to
//     be expected to lose footage, and _of_degraded those of them with drives down now;
//   - year: of all drives their number, failures_mean, failures_95 (drives that fail at
//     the most, in 95 % of the cases), drives_wanted_now and spares_to_have, the sum of
//     these two; models: the same by the label of the drives, most failures first (one
//     with models_summed_up above 0 is of so many others); replicates, the simulated years;
//   - arrays, in the order in which to go: name (the path of the state file without its
//     ending), site, site_file, choice, drive, drives, drives_down by number,
//     most_down_in_a_group and tolerance, lost; loss_chance_30_days and
//     loss_chance_before_all_run; best_action (null: nothing helps beyond doubt) with its
//     ratio, loss_chance_30_days_with_it and takes_off, the difference, by which the order
//     is; tied_with_the_one_before; advice; camera_days_at_stake (null without cameras);
//     failures_within_a_year, drives_wanted_now, trials and warnings.
//
// CSV and workbook have a row for each array, in that order.
//
// # Keys and columns
//
// A key of the JSON stands once, in the function that makes its object ([object]),
// in the order in which it is written. Struct tags on the results would not do: one
// object takes its figures from the choice, its sizing and its simulation in turn,
// in other units than the program computes in, and whether a figure is known
// depends on the site. So what the files look like stays here, and the results know
// nothing of it.
//
// A column of a table stands once too, as a row of a list ([columns]), for CSV and
// workbook alike.
package export
