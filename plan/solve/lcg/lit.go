package lcg

import "fmt"

// Var is a variable as its lower bound sees it. x and x^1 are twins: the value
// of x^1 is minus that of x.
type Var int32

// Neg returns the twin of v.
func (v Var) Neg() Var { return v ^ 1 }

// Lit is the literal V ≥ B.
type Lit struct {
	V Var
	B int32
}

// AtLeast returns v ≥ b.
func AtLeast(v Var, b int32) Lit { return Lit{v, b} }

// AtMost returns v ≤ b.
func AtMost(v Var, b int32) Lit { return Lit{v ^ 1, -b} }

// Not returns the negation of l.
func (l Lit) Not() Lit { return Lit{l.V ^ 1, 1 - l.B} }

func (l Lit) String() string {
	if l.V&1 == 0 {
		return fmt.Sprintf("x%d≥%d", l.V/2, l.B)
	}
	return fmt.Sprintf("x%d≤%d", l.V/2, -l.B)
}

// True is a literal that always holds, for what has no condition; True.Not()
// never does.
var True = Lit{V: -1}

// View is the number x + Plus.
type View struct {
	V    Var
	Plus int32
}

// Neg returns −w.
func (w View) Neg() View { return View{w.V ^ 1, -w.Plus} }

// AtLeast returns w ≥ b.
func (w View) AtLeast(b int32) Lit { return Lit{w.V, b - w.Plus} }

// AtMost returns w ≤ b.
func (w View) AtMost(b int32) Lit { return Lit{w.V ^ 1, w.Plus - b} }
