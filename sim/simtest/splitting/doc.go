// Package splitting estimates the chance of a first loss in another way than the engine
// does, to check it where losses are rare and no exact figure is known.
//
// It is multilevel splitting over a simulation event by event of its own, with the
// hazards of failures and common cause raised (importance sampling) where the value of
// what follows asks for it. Neither can bias the estimate, whatever values are taken;
// they only cost variance:
//
//   - A line is one copy of a life, with a weight. Its value, the chance of a loss from
//     there on, is guessed from its class: drives down in the worst group × spares out ×
//     drives down elsewhere × log2 of the time to the next repair or spare; and from how
//     high its hazards are. Lines are split or put to Russian roulette so that weight ×
//     value stays about level, the weight window of radiation transport.
//   - Pilots count the jumps between classes, and one linear solve gives the values.
//     Where pilots hardly came a line takes the greatest value of states like it and is
//     not put to much roulette: a value that is far too low is what makes an interval
//     lie.
//   - A failure is first down, its wait not drawn, so that copies draw waits of their
//     own.
//   - What may end the line with a loss from a state at any moment (a failure or a read
//     error without redundancy, common cause that takes too many drives) is added as its
//     chance, and the line goes on with the rest of its weight.
//   - What multiplies the hazards of a whole life is drawn from a mixture of its Gamma
//     law and those of higher powers.
//
// Lives are independent of each other, and the interval is that of their mean. Of the
// rest of the simulation it has the system, the laws, and the mean number of latent
// defects; it follows a life up to its first loss only.
package splitting
