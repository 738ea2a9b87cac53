//go:build unix

package main

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.org/kettledrum/plan/planfile"
)

func TestNamedZone(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	link := func(zone string) string {
		file := filepath.Join(dir, "zoneinfo", filepath.FromSlash(zone))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, nil, 0o644); err != nil {
			t.Fatal(err)
		}
		link := filepath.Join(dir, filepath.Base(zone))
		if err := os.Symlink(file, link); err != nil {
			t.Fatal(err)
		}
		return link
	}
	vienna, err := time.LoadLocation("Europe/Vienna")
	if err != nil {
		t.Fatal(err)
	}
	hours := func(h float64) *time.Location { return time.FixedZone("Local", int(h*3600)) }
	for name, c := range map[string]struct {
		local *time.Location
		link  string
		want  string
	}{
		"by-the-link":      {hours(5.5), link("Asia/Kolkata"), "Asia/Kolkata"},
		"other-clocks":     {hours(1), link("Europe/Vienna"), "Local"}, // no summer time
		"no-zone":          {hours(1), link("Kitchen/Counter"), "Local"},
		"no-link":          {hours(1), filepath.Join(dir, "nothing"), "Local"},
		"named-already":    {vienna, filepath.Join(dir, "nothing"), "Europe/Vienna"},
		"named-by-nothing": {time.FixedZone("", 3600), filepath.Join(dir, "nothing"), ""},
	} {
		if got := namedZone(c.local, c.link, at(12, 0)); got.String() != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// A journal that is opened in another zone shows the times of the kitchen.
func TestJournalKeepsItsZone(t *testing.T) {
	t.Parallel()
	vienna, err := time.LoadLocation("Europe/Vienna")
	if err != nil {
		t.Fatal(err)
	}
	const text = "kettledrum: 1\ntable: 2026-10-17 19:00\ndishes: [{name: Peas, steps: ['Boil, 5m']}]\n"
	for name, c := range map[string]struct {
		local *time.Location
		want  string
	}{
		"named":   {vienna, "Europe/Vienna"},
		"no-name": {time.FixedZone("Local", -5*3600-1800), "UTC-05:30"},
	} {
		s := source{name: "peas.yaml", text: []byte(text)}
		p, ps := planfile.Decode(s.text, planfile.Options{Local: c.local})
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		was := s.copyOf(p, reading{})
		if was.Zone != c.want {
			t.Errorf("%s: the zone is written %q, want %q", name, was.Zone, c.want)
		}
		was.Table, err = time.Parse(time.RFC3339, was.Table.Format(time.RFC3339)) // as it comes out of the journal
		if err != nil {
			t.Fatal(err)
		}
		again, ps := decodeCopy(&was, planfile.Options{Local: time.UTC})
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		if got := again.Table.Format("15:04 -0700"); got != p.Table.Format("15:04 -0700") {
			t.Errorf("%s: read again the table is at %s, want %s", name, got, p.Table.Format("15:04 -0700"))
		}
	}
}
