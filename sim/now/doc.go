// Package now answers what is to be done about one array as it stands tonight: how likely
// it is to lose footage until all of its drives run again and over the next 30 days, hour
// by hour, and how much each thing that can be done takes off that.
//
// [Ask] answers, and its [Result] says it in sentences too. [Drill] draws a state from the
// simulated lives, to practise on.
//
// # The rules
//
// Lives begin in the state by the rules of [model.Start], and go on by those of package
// model. The state's own are in [model.System.Begin]. What can be done is simulated as a
// change of the site, the choice or the state, from the same random streams as what is
// compared with it:
//
//   - the technician and the drive sooner: both there in 4 h, or in 1 h where they would be
//     there in less than 8 h;
//   - the rebuild first: its share of the drives is all that recording leaves;
//   - half the bit rate of all cameras, or none of the group that writes most: as the
//     rebuild time of package array has it, this frees time of the drives for the rebuild
//     where recording is what bounds it;
//   - the scrub stopped: what is unreadable stays until a rebuild has read it. A scrub
//     takes no time of the drives from a rebuild here;
//   - footage copied out first: see [Copy].
//
// What not to do is common practice and has no source.
package now
