package main

import (
	"runtime"
	"runtime/metrics"
	"sync"
	"time"
)

// sampleEvery is how often the heap is looked at: often enough to see between
// two collections, seldom enough not to disturb what is timed.
const sampleEvery = 2 * time.Millisecond

// memoryOf returns the greatest heap in use while do runs, as sampled, and what it
// allocated in all, in MB of 10⁶ bytes. The heap is collected before. In use is
// what runtime.MemStats calls HeapInuse: objects, and free room in their spans;
// it is read from runtime/metrics, which does not stop the program.
func memoryOf(do func()) (heap, alloc float64) {
	runtime.GC()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	peak := before.HeapInuse
	stop := make(chan struct{})
	var wg sync.WaitGroup
	wg.Go(func() {
		tick := time.NewTicker(sampleEvery)
		defer tick.Stop()
		for {
			select {
			case <-stop:
				return
			case <-tick.C:
				peak = max(peak, heapInUse())
			}
		}
	})
	do()
	close(stop)
	wg.Wait()
	runtime.ReadMemStats(&after)
	peak = max(peak, after.HeapInuse)
	return float64(peak) / 1e6, float64(after.TotalAlloc-before.TotalAlloc) / 1e6
}

func heapInUse() uint64 {
	s := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}, {Name: "/memory/classes/heap/unused:bytes"}}
	metrics.Read(s)
	return s[0].Value.Uint64() + s[1].Value.Uint64()
}
