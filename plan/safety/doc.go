// Package safety holds what public agencies publish on safe cooking, holding,
// cooling, keeping and thawing, as typed tables, and finds in a plan and its
// timetable what a cook should know. It knows no file, no screen and no clock.
//
// The local food authority and the guest's doctor come first. What is here is
// general advice for a healthy household, read from published charts; where they
// disagree, the stricter figure is taken. It warns and never refuses, and it
// never says that a dish is safe.
//
// # Marks
//
// Every row says where its figure was seen (source.Mark): in the text of the
// agency itself, in a page that quotes it, in a data set that the agency
// publishes; or that it was computed from another row, or is from memory.
//
// # Two systems
//
// Consumer advice (USDA FSIS, FoodSafety.gov: 40 and 140 °F) and the retail FDA
// Food Code (41 and 135 °F) are not mixed: cautions follow the consumer rows, the
// Food Code is named beside them where it differs.
//
// # Flow
//
// lexicon.go finds known words in what the cook wrote; kinds.go says what foods they
// stand for, allergen_words.go what is in them, allergen_dishes.go what is in dishes made
// of several. heat.go tells which steps are on the heat, cook.go which of them cook what,
// and how far. path.go follows the food of every
// step through the timetable: raw, cooking, hot, cooling, cold, heated again, how long
// out of the cold, how long in the refrigerator. Each rule_….go looks for one sort of
// hazard along those paths and adds a caution (cautions.go) of a code (advice.go).
//
// # Tables
//
// minimum.go, foodcode.go, storage.go, thaw.go, zone.go, uk.go, allergen.go. Each
// figure stands once more in testdata, copied from the publication, and a test
// compares them row by row.
package safety
