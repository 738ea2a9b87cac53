package source

// Mark says where a figure was seen.
type Mark string

// Where a figure was seen.
const (
	Exact     Mark = "exact"       // by definition: arithmetic from a defined unit
	Primary   Mark = "primary"     // in the text of the agency itself
	Secondary Mark = "secondary"   // in a page that quotes the first source
	DataSet   Mark = "data set"    // in open data that the agency publishes
	Computed  Mark = "computed"    // from another row
	Memory    Mark = "from memory" // not looked up
)

// Source is where a row comes from.
type Source struct {
	Name    string // the publisher and the title: "NIST SP 811, appendix B.8"
	Edition string // year or years of the text, empty where it bears none
	Mark    Mark
}

// String is the source as a cook reads it, with a word of warning where it was
// not looked up.
func (s Source) String() string {
	out := s.Name
	if s.Edition != "" {
		out += ", " + s.Edition
	}
	switch {
	case s.Mark != Memory:
		return out
	case out == "":
		return "from memory"
	}
	return out + ", from memory"
}
