package main

import (
	"path/filepath"
	"strings"
	"time"
)

// localtime is a link to the file of the machine's time zone, whose path ends
// with its name. Source: localtime(5), systemd.
const localtime = "/etc/localtime"

// namedZone returns the zone of this machine by its name, so that a journal that
// goes elsewhere still reads right: Go calls it "Local". Link is localtime. Where
// no name is to be found, or it names other clocks, local is returned as it is.
func namedZone(local *time.Location, link string, now time.Time) *time.Location {
	if named(local) {
		return local
	}
	path, err := filepath.EvalSymlinks(link)
	if err != nil {
		return local
	}
	_, name, ok := strings.Cut(filepath.ToSlash(path), "zoneinfo/")
	if !ok {
		return local
	}
	loc, err := time.LoadLocation(name)
	if err != nil || !sameClocks(loc, local, now) {
		return local
	}
	return loc
}

// sameClocks reports whether two zones show the same time every month of the
// year around an instant.
func sameClocks(a, b *time.Location, now time.Time) bool {
	for month := -6; month <= 6; month++ {
		t := now.AddDate(0, month, 0)
		_, x := t.In(a).Zone()
		_, y := t.In(b).Zone()
		if x != y {
			return false
		}
	}
	return true
}

// named reports whether a zone can be found by its name on any machine.
func named(loc *time.Location) bool {
	name := loc.String()
	_, err := time.LoadLocation(name)
	return err == nil && name != "" && name != "Local"
}

// zoneName is what the journal says of the zone of t: its name or, where it has
// none, its distance from UTC, which no zone is called and which the journal's
// own times have too.
func zoneName(t time.Time) string {
	if named(t.Location()) {
		return t.Location().String()
	}
	return "UTC" + t.Format("-07:00")
}
