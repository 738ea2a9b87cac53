package network

// Slack returns the total float of every point: how much later it may be than
// its earliest time with no upper bound passed.
//
//	slack[i] = latest[i] − earliest[i]
//
// Shape: as earliest and latest, which Earliest and Latest made; NoUpper where
// either has no bound. Negative where the bounds clash. Unit: ticks. Source:
// Kelley and Walker, Critical-path planning and scheduling, 1959 (from memory).
func Slack(earliest, latest []int64) []int64 {
	slack := make([]int64, len(earliest))
	for i := range slack {
		slack[i] = between(earliest[i], latest[i])
	}
	return slack
}

// Critical returns the points without slack, in their order.
func Critical(earliest, latest []int64) []int {
	var points []int
	for i := range earliest {
		if between(earliest[i], latest[i]) <= 0 {
			points = append(points, i)
		}
	}
	return points
}

// ArcSlack returns the total float of an arc that stands for an activity:
//
//	latest[j] − earliest[i] − w
//
// Unit, bounds and source as Slack.
func (n *Network) ArcSlack(arc int, earliest, latest []int64) int64 {
	a := n.arcs[arc]
	if s := between(earliest[a.From], latest[a.To]); s != NoUpper {
		return s - a.Weight
	}
	return NoUpper
}

// between returns the ticks from one time to another, NoUpper if either is unbounded.
func between(from, to int64) int64 {
	if from == NoLower || to == NoUpper {
		return NoUpper
	}
	return to - from
}
