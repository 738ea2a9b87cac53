//go:build !linux && !darwin

package main

var awake = inhibitor{}

const awakeHint = "this machine may fall asleep meanwhile: switch that off in its power settings"
