package main

// awake knows no program: caffeinate is for the cook to begin with.
var awake = inhibitor{}

const awakeHint = "to keep the laptop awake, begin with: caffeinate -di kettledrum cook"
