// Package safety holds what public agencies publish on safe cooking, holding,
// cooling, keeping and thawing, as typed tables, and finds in a plan and its
// timetable what a cook should know. It knows no file, no screen and no clock,
// and imports the standard library and package plan only.
//
// The local food authority and the guest's doctor come first. What is here is
// general advice for a healthy household, read from published charts; where they
// disagree, the stricter figure is taken. It warns and never refuses, and it
// never says that a dish is safe.
//
// # Marks
//
// Every row says where its figure was seen (Source.Mark): in the text of the
// agency itself, in a page that quotes it, in a data set that the agency
// publishes; or that it was computed from another row, or is from memory.
//
// # Two systems
//
// Consumer advice (USDA FSIS, FoodSafety.gov: 40 and 140 °F) and the retail FDA
// Food Code (41 and 135 °F) are not mixed: cautions follow the consumer rows, the
// Food Code is named beside them where it differs.
package safety
