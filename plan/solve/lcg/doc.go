// Package lcg is a constraint solver over bounded integers by lazy clause
// generation: propagators tighten bounds and explain each step when asked; a
// conflict is analysed as in a SAT solver and leaves a learnt clause.
//
//	decide ─▶ propagate ─▶ conflict ─▶ analyse (first unique implication point) ─▶ learn, jump back
//
// A literal is a bound: V ≥ B. Each variable x has a twin for −x, so that upper
// bounds are literals too, every rule is written once, and no boolean is made
// beforehand. The solver is deterministic: it has no clock and no randomness.
//
// Sources: O. Ohrimenko, P. J. Stuckey, M. Codish, Propagation via lazy clause
// generation, Constraints 14 (2009) 357–391; A. Schutt, T. Feydy, P. J. Stuckey,
// M. G. Wallace, Explaining the cumulative propagator, Constraints 16 (2011)
// 250–282; N. Eén, N. Sörensson, An extensible SAT-solver, SAT 2003.
package lcg
