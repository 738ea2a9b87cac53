package tui_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/tuitest"
)

func TestKeyTable(t *testing.T) {
	t.Parallel()
	seen := map[string]tui.Action{}
	for _, b := range tui.Bindings() {
		if len(b.Keys) == 0 || b.Short == "" || len(b.Modes) == 0 || !strings.HasSuffix(b.Full, ".") {
			t.Errorf("row %q lacks keys, a word, a sentence or a mode", b.Action)
		}
		for _, m := range b.Modes {
			for _, k := range b.Keys {
				id := fmt.Sprint(m, " ", k)
				if other, twice := seen[id]; twice {
					t.Errorf("%s is both %q and %q", id, other, b.Action)
				}
				seen[id] = b.Action
			}
		}
	}
	for m, keys := range tui.Aliases() {
		for k, a := range keys {
			if other, twice := seen[fmt.Sprint(m, " ", k)]; twice {
				t.Errorf("alias %s in %s hides %q", k, m, other)
			}
			if !slices.ContainsFunc(tui.Bindings(), func(b tui.Binding) bool { return b.Action == a }) {
				t.Errorf("alias %s in %s: no row has %q", k, m, a)
			}
		}
	}
	for _, m := range tui.Modes() {
		if tui.Find(m, "esc") == nil {
			t.Errorf("no way back from %s", m)
		}
	}
	if n := strings.Count(tui.KeyTable(), "\n"); n != len(tui.Bindings())+2 {
		t.Errorf("the README's table has %d lines for %d rows", n, len(tui.Bindings()))
	}
}

// TestAllKeysInAllModes walks every key of the table, and a few others, through
// every mode, and keeps what came of it: the mode then, the effects, the message.
func TestAllKeysInAllModes(t *testing.T) {
	t.Parallel()
	keys := []string{"1", "é", "f9"}
	for _, b := range tui.Bindings() {
		for _, k := range b.Keys {
			if !slices.Contains(keys, k) {
				keys = append(keys, k)
			}
		}
	}
	ways := map[tui.Mode]string{tui.Main: "", tui.List: "l", tui.Confirm: "q", tui.Prompt: "t", tui.Help: "?",
		tui.Far: "f", tui.Lanes: "v", tui.StepView: "o", tui.Days: "y", tui.Log: "g", tui.Finding: "/", tui.Choices: "w",
		tui.Debrief: "D", tui.Walk: "", tui.WalkEnd: "l"}
	handled := map[tui.Action]bool{}
	var out strings.Builder
	for _, rehearsal := range []bool{false, true} {
		for _, mode := range tui.Modes() {
			st := stage("three-at-once")
			own := mode == tui.Debrief || mode == tui.Walk || mode == tui.WalkEnd // of a rehearsal only
			if own && !rehearsal {
				continue
			}
			if mode == tui.List {
				st = stage("list-on-return")
			}
			for _, k := range keys {
				var s *tuitest.Screen
				switch mode {
				case tui.Debrief:
					s = debriefed(t, 80, 24, nil)
				case tui.Walk, tui.WalkEnd:
					s = walking(t, 80, 24, nil)
				default:
					s = at(t, st, tuitest.Config{Width: 80, Height: 24, Rehearsal: rehearsal})
				}
				if s.Model.Mode() != mode {
					s.Keys(ways[mode])
				}
				if s.Model.Mode() != mode {
					if rehearsal && mode == tui.Confirm { // a rehearsal quits at once
						continue
					}
					t.Fatalf("%q leads to %s, not to %s", ways[mode], s.Model.Mode(), mode)
				}
				before := tui.View(s.Model)
				s.Turn(0)
				s.Effects = nil
				s.Keys(k)
				b := tui.Find(mode, k)
				other := rehearsal && !own && b != nil && !b.Rehearsal && b.Action != tui.Leave // as on the cook-day
				if b == nil || b.Rehearsal && !rehearsal || other {
					typed := mode == tui.Prompt || mode == tui.Finding
					if b == nil && (len(recorded(s)) > 0 || !typed && !strings.Contains(s.Model.Message(), "does nothing here")) {
						t.Errorf("%s in %s is in no row, does %v and says %q", k, mode, s.Effects, s.Model.Message())
					}
					continue
				}
				var did []string
				for _, e := range s.Effects {
					did = append(did, describe(e))
				}
				fmt.Fprintf(&out, "%-7s %-10s → %-7s %s", mode, k, s.Model.Mode(), strings.Join(did, ", "))
				if msg := s.Model.Message(); msg != "" {
					fmt.Fprintf(&out, " %q", msg)
				}
				out.WriteByte('\n')
				if b != nil && (len(did) > 0 || s.Model.Message() != "" || s.Model.Mode() != mode || tui.View(s.Model) != before) {
					handled[b.Action] = true
				}
			}
		}
	}
	for _, b := range tui.Bindings() {
		if !handled[b.Action] {
			t.Errorf("%q does nothing that can be seen in any mode", b.Action)
		}
	}
	golden(t, "keys-in-modes", out.String())
}

func describe(e tui.Effect) string {
	r, ok := e.(tui.Record)
	if !ok {
		return fmt.Sprintf("%T%v", e, e)
	}
	var parts []string
	for _, ev := range r.Events {
		p := string(ev.Kind)
		for _, s := range []string{ev.Step, ev.Course, ev.Text, ev.Cue} {
			if s != "" {
				p += " " + s
			}
		}
		if ev.By != 0 {
			p += " " + ev.By.String()
		}
		parts = append(parts, p)
	}
	return "record(" + strings.Join(parts, "; ") + ")"
}
