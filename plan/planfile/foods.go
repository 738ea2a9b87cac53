package planfile

import "example.org/kettledrum/plan/safety"

// foods are the ids that `food` may name: the rows of the consumer table of safe
// minimum internal temperatures.
var foods = safety.Foods()
