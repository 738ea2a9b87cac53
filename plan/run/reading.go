package run

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
)

// forecastMoves is by how much a forecast must differ from what was expected to
// move the end of a step: a timetable moves in minutes.
const forecastMoves = time.Minute

// Inside is what is known of the temperature inside what a step heats.
type Inside struct {
	Readings []heat.Reading // by time
	// Forecast is what the readings said when the newest was told. Nil without any,
	// and of a step that heats nothing to a temperature.
	Forecast *heat.Forecast
	// Planned is how long the step was to take but for the readings; Left is its Extra
	// as the readings left it.
	Planned, Left time.Duration
}

// heats reports whether a step warms food to a temperature inside.
func heats(step *plan.Step) bool {
	return step.Until.HasTemp && (step.Oven != nil || step.Burner != nil)
}

// AtTarget returns the reading that step i has when it ends as planned: false where it
// heats nothing to a temperature. For rehearsals: of a real dinner only the cook knows.
func AtTarget(p *plan.Plan, i int) (Event, bool) {
	step := &p.Steps[i]
	if !heats(step) {
		return Event{}, false
	}
	temp := float64(step.Until.Temp)
	return Event{Kind: Reading, Step: step.ID, Temp: &temp}, true
}

// read puts a reading into the state. What is read is in, unless it is not to be
// yet: then it is how cold the food goes in. After the end it is of the rest, and
// may tell what the last one did not. A second one of the same time corrects the
// first.
func (s *State) read(i int, at time.Time, temp plan.Celsius) error {
	st := &s.Steps[i]
	switch {
	case st.Status == plan.Skipped:
		return fmt.Errorf("%q was skipped at %s, undo that first", s.Plan.Steps[i].Do, s.when(st.Finished, at))
	case st.Status == plan.Ahead && s.Timetable != nil && !s.Timetable.Slots[i].Start.After(at):
		s.begin(i, s.impliedStart(i, at))
	}
	in := st.Inside.Readings
	k, again := slices.BinarySearchFunc(in, at, func(r heat.Reading, at time.Time) int { return r.At.Compare(at) })
	in = slices.Insert(slices.Clone(in), k, heat.Reading{At: at, Temp: temp})
	if again {
		in = slices.Delete(in, k+1, k+2)
	}
	st.Inside.Readings = in
	if heats(&s.Plan.Steps[i]) && st.Status != plan.Done {
		s.forecast(i)
	}
	return nil
}

// forecast finds when step i will be at its temperature, and moves its end there
// where the readings know more than the plan.
func (s *State) forecast(i int) {
	st, step := &s.Steps[i], &s.Plan.Steps[i]
	in := &st.Inside
	if in.Forecast == nil || st.Extra != in.Left { // or the cook said since how much longer
		in.Planned = s.length(i)
	}
	roast := heat.Roast{Start: st.Started, Planned: in.Planned, Target: step.Until.Temp, Readings: in.Readings}
	if st.Status == plan.Ahead {
		roast.Start = s.startOf(i)
	}
	if step.Oven != nil {
		roast.HasOven = true
		roast.Oven, roast.Turned = s.dialOf(i, roast.Start)
	}
	f := heat.Predict(&roast)
	in.Forecast = &f
	if st.Status == plan.Begun && f.Moves() && !step.Length.Elastic {
		done := f.Done
		if f.Basis != heat.Reached { // that is now, not in the next full minute
			done = upToMinute(done)
		}
		if by := done.Sub(st.Started.Add(s.length(i))); by.Abs() >= forecastMoves {
			st.Extra += by
		}
	}
	in.Left = st.Extra
}

// startOf is when step i is planned to start, as far as that is known.
func (s *State) startOf(i int) time.Time {
	if s.Timetable != nil {
		return s.Timetable.Slots[i].Start
	}
	return s.Steps[i].Inside.Readings[len(s.Steps[i].Inside.Readings)-1].At
}

// dialOf is what the oven of step i is set to, as told last, else as the step asks;
// and when it was turned since the step went in, zero if it was not.
func (s *State) dialOf(i int, since time.Time) (dial plan.Celsius, turned time.Time) {
	dial = s.Plan.Steps[i].Oven.At
	if s.Timetable == nil {
		return dial, turned
	}
	oven := s.Timetable.Slots[i].Oven
	for _, set := range s.Sets { // by time
		if set.Oven != oven || set.Off {
			continue
		}
		if set.At.After(since) && set.To != dial {
			turned = set.At
		}
		dial = set.To
	}
	return dial, turned
}

// Reached reports whether the newest reading is at a temperature or above.
func (in *Inside) Reached(temp plan.Celsius) bool {
	n := len(in.Readings)
	return n > 0 && in.Readings[n-1].Temp >= temp
}

// shown is the reading by which it is judged whether food was safe: the last one
// up to the end of its step, or one after it that is higher. What an earlier one
// showed may have been the oven's air.
func (in *Inside) shown(finished time.Time) (plan.Celsius, bool) {
	if len(in.Readings) == 0 {
		return 0, false
	}
	last := 0
	for k, r := range in.Readings {
		if !r.At.After(finished) {
			last = k
		}
	}
	highest := slices.MaxFunc(in.Readings[last:], func(a, b heat.Reading) int { return cmp.Compare(a.Temp, b.Temp) })
	return highest.Temp, true
}
