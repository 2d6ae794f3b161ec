// Package choice solves one exact problem: pick one option from every group so
// that every row holds, at the least cost, with a proof. It knows nothing of
// food.
//
// # What is asked
//
// Rows are second-order cones: Σ mid + sqrt(Σ_factor (Σ load)²) <= bound over the
// chosen options. Costs are whole numbers compared level by level. Among choices
// of equal cost the one whose option numbers, read group by group, come first is
// taken, so that the same problem always has the same answer.
//
// # How it is found
//
//  1. Equal rows are merged to the tightest; rows that nothing can break, and
//     options that another of their group can always stand in for, are left out.
//     Standing in is only allowed where it never makes a choice later in the
//     order (dominate.go).
//  2. Loads whose factor only one group has act as one load under one factor,
//     since one option of the group is chosen. That tightens the relaxation and
//     changes no choice. Loads of one sign under a shared factor are also taken as
//     independent in a second line, by (Σ h)² >= Σ h² (model.go).
//  3. Branch and bound: at each node options that break a line by themselves are
//     banned, and a linear relaxation, in which options may be mixed, gives a
//     bound. It is solved by the dual simplex from the cheapest options; rows are
//     entered only when the mix breaks them, cones as tangents at the mix
//     (tableau.go, cut.go). Options whose reduced cost passes the limit are banned.
//     The group branched on is the mixed one whose options differ most in the rows,
//     weighted by what branchings on it have done for the bound so far.
//     Where few choices are left they are tried one after the other (sweep.go);
//     where a sum is held closely on both sides, many are gone through as two lists
//     of partial choices (halves.go).
//  4. A low limit on the cost is tried first and raised until a choice turns up, by
//     steps that keep the growth of the search from round to round small.
//  5. The levels are minimised in order, each kept as a line for the next. Where
//     the last level's best is proved, choices as good but earlier in the order of
//     the option numbers are looked for, in the same search if it can be (tie.go).
//
// # Why it is exact
//
// Floating point steers the search and decides nothing. A choice is accepted
// only by Problem.Holds on the problem as given. A node is given up only for a
// bound Σ_group min_option (cost + Σ λ a) - Σ λ b, computed afresh from the
// multipliers λ: it is valid for any λ >= 0, so rounding in the simplex can make
// it weaker and never wrong; its own rounding is bounded and taken off, and every
// line's bound is widened by Tolerance and a margin for rounding. A tangent of a
// cone with weights of norm at most 1 holds for every choice that keeps the cone.
// Where the simplex gives up or its proof does not stand, the search branches
// on. Costs are limited so that their sums are exact in a float64. Only a row
// that meets its bound plus Tolerance to the last few bits of a sum can come out
// either way.
//
// Costs and time: see the benchmarks. A search may run out of its Budget; it
// then says Stopped and never claims a proof.
package choice
