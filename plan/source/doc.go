// Package source says where a figure comes from and how well it was seen. The
// tables of measures and of food safety carry a Source in every row. It knows
// nothing of either, and imports nothing.
package source
