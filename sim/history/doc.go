// Package history is what both simulations write down of a life: what happened, in
// its order.
//
// There are two forms, and neither knows who writes or reads it:
//
//   - A [Record] is the course of one life as package plain simulates it: [Event] by
//     event, each with the bay that it is about. Package trace makes a life of it that
//     can be shown.
//   - A [History] is a life up to its first loss as forced branching (package branch)
//     draws it: [Step] by step, with everything that chance had a hand in and no more.
//     Drives that are alike to the estimator are not told apart. Package plain goes on
//     from there.
//
// Times are hours since the start of the life; bays, groups and sets are counted from
// 0.
package history
