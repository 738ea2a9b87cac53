package sounds

import "math"

// biquad is a filter of second order with a[0] = 1.
type biquad struct{ b0, b1, b2, a1, a2 float64 }

// kWeighting is the filter of the loudness measure at 48 kHz: first a shelf that
// stands for the head, then a high pass. Source: ITU-R BS.1770-4, Annex 1, tables
// 1 and 2 (from memory; a test holds the whole against the reading that the
// recommendation states).
var kWeighting = [2]biquad{
	{1.53512485958697, -2.69169618940638, 1.19839281085285, -1.69065929318241, 0.73248077421585},
	{1, -2, 1, -1.99004745483398, 0.99007225036621},
}

// Of ITU-R BS.1770-4, Annex 1.
const (
	blockLength  = Rate * 4 / 10 // samples: 400 ms
	blockHop     = blockLength / 4
	offset       = -0.691 // dB: makes 997 Hz come out as its level
	absoluteGate = -70    // LUFS
	relativeGate = -10    // LU below the mean of what passed the absolute gate
)

// Loudness returns the integrated loudness of one channel in LUFS: of blocks of
// 400 ms that overlap by three quarters, without those below -70 LUFS and then
// without those 10 LU below the mean of the rest. What is shorter than a block, or
// silent, has the loudness -Inf.
//
// Shape: any number of samples at Rate, full scale from -1 to 1.
// Source: ITU-R BS.1770-4, Annex 1.
func Loudness(x []float64) float64 {
	y := x
	for _, f := range kWeighting {
		y = f.filter(y)
	}
	var power []float64
	for from := 0; from+blockLength <= len(y); from += blockHop {
		sum := 0.0
		for _, v := range y[from : from+blockLength] {
			sum += v * v
		}
		power = append(power, sum/blockLength)
	}
	mean := gatedMean(power, absoluteGate)
	return lufs(gatedMean(power, lufs(mean)+relativeGate))
}

// gatedMean is the mean of the powers above a loudness in LUFS.
func gatedMean(power []float64, gate float64) float64 {
	sum, n := 0.0, 0
	for _, p := range power {
		if l := lufs(p); l > gate && l > absoluteGate {
			sum += p
			n++
		}
	}
	if n == 0 {
		return 0
	}
	return sum / float64(n)
}

func lufs(power float64) float64 { return offset + 10*math.Log10(power) }

func (f biquad) filter(x []float64) []float64 {
	out := make([]float64, len(x))
	var x1, x2, y1, y2 float64
	for i, v := range x {
		y := f.b0*v + f.b1*x1 + f.b2*x2 - f.a1*y1 - f.a2*y2
		x1, x2, y1, y2 = v, x1, y, y1
		out[i] = y
	}
	return out
}
