package main

import (
	"bufio"
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/sounds"
	"example.org/kettledrum/sounds/speaker"
	"example.org/kettledrum/tui/theme"
)

// soundCommand plays the sounds, so that the cook learns them.
func soundCommand(w *world) *cobra.Command {
	k := soundTour{w: w}
	c := &cobra.Command{
		Use:   "sound [CLASS…]",
		Short: "Play each sound with its meaning; --test asks whether it is heard over the hood",
		Args:  cobra.ArbitraryArgs,
		RunE:  func(c *cobra.Command, args []string) error { return k.run(c.Context(), args) },
	}
	for _, m := range sounds.Motifs() {
		c.ValidArgs = append(c.ValidArgs, m.Class.String())
	}
	k.hear.flags(c)
	c.Flags().BoolVar(&k.test, "test", false, "play one sound, louder until it is heard over the hood")
	c.Flags().Lookup("mute").Usage = "only list them"
	return c
}

// soundTour is one call of the sound command.
type soundTour struct {
	w    *world
	hear hearing
	test bool
	bank *sounds.Bank
}

func (k *soundTour) run(ctx context.Context, args []string) error {
	if err := k.hear.check(); err != nil {
		return err
	}
	chosen, err := motifs(args)
	if err != nil {
		return err
	}
	k.bank = sounds.Render()
	if k.test {
		return k.heard(ctx)
	}
	for i, m := range chosen {
		if i > 0 {
			fmt.Fprintln(k.w.out)
		}
		fmt.Fprintf(k.w.out, "%-7s %s on the screen: %s\n%-7s %s\n", m.Class, theme.Word(m.Class), m.Meaning, "", m.Heard)
		if !k.hear.mute {
			if err := k.play(ctx, m.Class); err != nil {
				return err
			}
		}
	}
	return nil
}

// motifs returns the motifs that the arguments name, all where there are none.
func motifs(args []string) ([]sounds.Motif, error) {
	all := sounds.Motifs()
	if len(args) == 0 {
		return all, nil
	}
	var out []sounds.Motif
	var names []string
	for _, m := range all {
		names = append(names, m.Class.String())
	}
next:
	for _, a := range args {
		for _, m := range all {
			if m.Class.String() == a {
				out = append(out, m)
				continue next
			}
		}
		return nil, fail(exitUse, fmt.Errorf("there is no sound %q", a), "there are "+strings.Join(names, ", "))
	}
	return out, nil
}

// play plays one sound and waits until it was heard.
func (k *soundTour) play(ctx context.Context, c run.Class) error {
	pcm := k.bank.PCM(sounds.Sound{Class: c, Volume: k.hear.volume})
	if _, err := speaker.Play(ctx, speaker.Ways(), pcm); err != nil {
		if ctx.Err() != nil {
			return said(exitFine) // asked to stop
		}
		return fail(exitTerminal, fmt.Errorf("no sound could be played: %w", err),
			"in cook the terminal's bell rings all the same; --mute only lists the sounds")
	}
	return nil
}

// louderBy is by how much a sound that was not heard becomes louder, in percent.
const louderBy = 10

// heard plays a sound, and where somebody can answer, louder until it is heard.
func (k *soundTour) heard(ctx context.Context) error {
	if k.hear.mute {
		return fail(exitUse, fmt.Errorf("--test with --mute tests nothing"), "leave one of them out")
	}
	var answers *bufio.Scanner
	if k.w.terminal != nil {
		answers = bufio.NewScanner(k.w.terminal.in)
	}
	for {
		if err := k.play(ctx, run.Look); err != nil {
			return err
		}
		fmt.Fprintf(k.w.out, "volume %d %%: can you hear this over the hood?", k.hear.volume)
		if answers == nil {
			fmt.Fprintln(k.w.out)
			return nil
		}
		fmt.Fprint(k.w.out, " y, or n for louder: ")
		if !answers.Scan() {
			fmt.Fprintln(k.w.out)
			return nil
		}
		if a := strings.ToLower(strings.TrimSpace(answers.Text())); a != "n" && a != "no" {
			if a == "y" || a == "yes" {
				fmt.Fprintf(k.w.out, "then on the day: %s cook --volume %d\n", program, k.hear.volume)
			}
			return nil
		}
		if k.hear.volume >= sounds.FullVolume {
			fmt.Fprintln(k.w.out, "that is as loud as it gets here: turn the computer up, or bring it nearer")
		}
		k.hear.volume = min(sounds.FullVolume, k.hear.volume+louderBy)
	}
}
