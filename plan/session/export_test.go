package session

// Moved is the timetable that rebalancing judges.
var Moved = moved
