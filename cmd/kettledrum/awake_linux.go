package main

// awake keeps a machine with systemd awake: systemd-inhibit(1).
var awake = inhibitor{"systemd-inhibit", []string{
	"--what=sleep:idle", "--who=Kettledrum", "--why=A dinner is being cooked", "--mode=block"}}

const awakeHint = "this machine may fall asleep meanwhile: switch that off in its power settings"
