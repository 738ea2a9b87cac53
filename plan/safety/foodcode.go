package safety

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/source"
)

// CodeRow is one rule of the FDA Food Code 2022, written for those who sell food:
// it is named beside the consumer's figure, and never in its place.
type CodeRow struct {
	Section string
	Rule    string
	// F is the temperature in degrees Fahrenheit; of cooling the one to come down
	// to, FromF the one to start at. 0: any.
	FromF, F int
	// Time is how long at the temperature at least or, with AtMost, how long it may
	// take. Under a second is a nanosecond; 0 is no time.
	Time   time.Duration
	AtMost bool
	// Stand is how long it must stand afterwards.
	Stand  time.Duration
	Source source.Source
}

// instant is a time of less than a second.
const instant = time.Nanosecond

func foodCode(m source.Mark) source.Source { return cite("FDA Food Code", "2022", m) }

const day = 24 * time.Hour

// foodCodeRows is the retail rule, confirmed through the codes of states and lists
// of violations that adopt its text.
var foodCodeRows = []CodeRow{
	{"3-401.11(A)(1)", "intact meat, fish, eggs to order", 0, 145, 15 * time.Second, false, 0, foodCode(source.Primary)},
	{"3-401.11(A)(2)", "ground, injected or tenderised meat, ground fish, pooled eggs", 0, 155, 17 * time.Second, false, 0, foodCode(source.Secondary)},
	{"3-401.11(A)(2) a", "the same, alternative", 0, 145, 3 * time.Minute, false, 0, foodCode(source.Primary)},
	{"3-401.11(A)(2) b", "the same, alternative", 0, 150, time.Minute, false, 0, foodCode(source.Primary)},
	{"3-401.11(A)(2) c", "the same, alternative", 0, 158, instant, false, 0, foodCode(source.Secondary)},
	{"3-401.11(A)(3)", "poultry, stuffed foods, stuffing with meat, wild game", 0, 165, instant, false, 0, foodCode(source.Secondary)},
	{"3-401.11(C)", "whole-muscle beef steak: the surface, both sides, until its colour changes", 0, 145, 0, false, 0, foodCode(source.Secondary)},
	{"3-401.12", "raw animal food in a microwave: covered, turned or stirred", 0, 165, 0, false, 2 * time.Minute, foodCode(source.Memory)},
	{"3-401.13", "fruit and vegetables cooked for hot holding", 0, 135, 0, false, 0, foodCode(source.Memory)},
	{"3-403.11(A)", "heated again for hot holding", 0, 165, 15 * time.Second, false, 0, foodCode(source.Primary)},
	{"3-403.11(D)", "heated again for hot holding, from 41 °F", 41, 165, 2 * time.Hour, true, 0, foodCode(source.Primary)},
	{"3-403.11(B)", "heated again in a microwave: stirred or turned, covered", 0, 165, 0, false, 2 * time.Minute, foodCode(source.Primary)},
	{"3-403.11(C)", "heated again, commercially packed and ready to eat", 0, 135, 0, false, 0, foodCode(source.Primary)},
	{"3-501.14(A) 1", "cooling cooked food, first step", 135, 70, 2 * time.Hour, true, 0, foodCode(source.Primary)},
	{"3-501.14(A)", "cooling cooked food, in all; the clock starts at 135 °F", 135, 41, 6 * time.Hour, true, 0, foodCode(source.Primary)},
	{"3-501.14(B)", "food made of ingredients from the shelf", 0, 41, 4 * time.Hour, true, 0, foodCode(source.Primary)},
	{"3-501.16(A) hot", "hot holding", 0, 135, 0, false, 0, foodCode(source.Primary)},
	{"3-501.16(A) roast", "hot holding of roasts cooked by the table of whole roasts", 0, 130, 0, false, 0, foodCode(source.Primary)},
	{"3-501.16(A) cold", "cold holding", 0, 41, 0, false, 0, foodCode(source.Primary)},
	{"3-501.17", "ready to eat, kept for more than a day: the day it is made is the first", 0, 41, 7 * day, true, 0, foodCode(source.Primary)},
	{"3-501.19(B)", "time in place of temperature, then eaten or discarded", 0, 0, 4 * time.Hour, true, 0, foodCode(source.Primary)},
	{"3-501.19(B) cut", "cut produce or an opened can that stays at 70 °F or below", 0, 70, 4 * time.Hour, true, 0, foodCode(source.Primary)},
	{"3-501.19(C)", "from 41 °F and never above 70 °F", 41, 70, 6 * time.Hour, true, 0, foodCode(source.Primary)},
}

// ThermometerError is how far a food thermometer may be off by section 4-203.11 of
// the Food Code, in degrees Fahrenheit. From memory.
const ThermometerError = 2

// UseBy returns the last day on which food that is ready to eat may be used by
// section 3-501.17: the seventh, of which the day it is made is the first. made and
// the answer are instants on those days, in the same zone.
func UseBy(made time.Time) time.Time { return made.AddDate(0, 0, 6) }

// RoastRow is one row of the Food Code's table of whole roasts, 3-401.11(B)(2):
// every part at the temperature for the time, which may include the rise after the
// oven.
type RoastRow struct {
	F      int
	Time   time.Duration // 0: at once
	Source source.Source
}

// Older editions have other times; these are those of 2017 and 2022.
var wholeRoasts = []RoastRow{
	{130, 112 * time.Minute, foodCode(source.Primary)},
	{131, 89 * time.Minute, foodCode(source.Primary)},
	{133, 56 * time.Minute, foodCode(source.Primary)},
	{135, 36 * time.Minute, foodCode(source.Primary)},
	{136, 28 * time.Minute, foodCode(source.Primary)},
	{138, 18 * time.Minute, foodCode(source.Primary)},
	{140, 12 * time.Minute, foodCode(source.Primary)},
	{142, 8 * time.Minute, foodCode(source.Primary)},
	{144, 5 * time.Minute, foodCode(source.Primary)},
	{145, 4 * time.Minute, foodCode(source.Primary)},
	{147, 134 * time.Second, foodCode(source.Primary)},
	{149, 85 * time.Second, foodCode(source.Primary)},
	{151, 54 * time.Second, foodCode(source.Primary)},
	{153, 34 * time.Second, foodCode(source.Memory)},
	{155, 22 * time.Second, foodCode(source.Primary)},
	{157, 14 * time.Second, foodCode(source.Primary)},
	{158, 0, foodCode(source.Primary)},
}

// roastTime returns how long a whole roast must be at a temperature by the Food
// Code: the row of the highest temperature that is not above it. ok is false below
// the table.
func roastTime(c plan.Celsius) (d time.Duration, ok bool) {
	f := c.Fahrenheit() + 1e-6 // whole degrees Fahrenheit come back from Celsius a hair off
	for _, r := range wholeRoasts {
		if f >= float64(r.F) {
			d, ok = r.Time, true
		}
	}
	return d, ok
}
