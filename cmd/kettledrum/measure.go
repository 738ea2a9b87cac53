package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/ingredient"
	"example.org/kettledrum/plan/measure"
	"example.org/kettledrum/plan/planfile"
)

// measureCommand says an amount or a temperature in the other measures.
func measureCommand(w *world) *cobra.Command {
	return &cobra.Command{
		Use:   "measure AMOUNT [FOOD] | TEMPERATURE",
		Short: "Say an amount or a temperature in other measures",
		Example: `  kettledrum measure 2½ cups flour
  kettledrum measure 1 imperial pint
  kettledrum measure gas mark 6`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			text := strings.Join(args, " ")
			if c, err := planfile.Temperature(text); err == nil {
				writeTemperature(w.out, c)
				return nil
			}
			l := ingredient.Parse(text, measure.US)
			if l.Amount.Unit == nil && l.Each.Unit == nil {
				// A bare amount: the grammar takes what names nothing for the thing.
				l = ingredient.Parse(text+" of it", measure.US)
				l.Item = ""
			}
			a := l.Amount
			if a.Unit == nil {
				a = l.Each
			}
			if a.Unit == nil || a.Lo <= 0 {
				return fail(exitUse, fmt.Errorf("%q is neither an amount with a unit nor a temperature", text),
					"write it like 2½ cups flour, 500 g, 1 imperial pint, 350F or gas mark 6")
			}
			writeAmount(w.out, a, l.Item)
			return nil
		},
	}
}

// writeTemperature prints a temperature in both scales, the nearest gas mark, and
// what a fan oven is set to.
func writeTemperature(w io.Writer, c plan.Celsius) {
	fmt.Fprintf(w, "%s = %s\n", plan.Fahrenheit.Temp(c), plan.Metric.Temp(c))
	g, ok := measure.NearestGasMark(c)
	if !ok {
		return // no oven's temperature
	}
	exact := ""
	if math.Abs(g.F-c.Fahrenheit()) > 0.5 {
		exact = "nearest to "
	}
	charts := plan.Metric.Temp(g.ChartLo)
	if g.ChartHi > g.ChartLo {
		charts = fmt.Sprintf("%.0f to %s", float64(g.ChartLo), plan.Metric.Temp(g.ChartHi))
	}
	writePara(w, "  ", fmt.Sprintf("%sgas mark %s, %s; charts print %s (%s)", exact, g.Mark, g.Word, charts, g.Source))
	fanF := math.Round(measure.Fan(c, plan.Fahrenheit).Fahrenheit()/5) * 5 // as dials go
	fanC := math.Round(float64(measure.Fan(c, plan.Metric))/10) * 10
	writePara(w, "  ", fmt.Sprintf("in a fan oven about %.0f °F or %.0f °C, for the same time (%s)", fanF, fanC, measure.FanSource))
}

// others are the units in which an amount is said, by what it measures.
var others = map[measure.Dimension][]string{
	measure.Mass:   {"ounce", "gram"},
	measure.Volume: {"US cup", "US fluid ounce", "imperial fluid ounce", "millilitre"},
	measure.Length: {"inch", "centimetre"},
}

// writeAmount prints an amount in the measures of the kitchen, and what it weighs or
// fills where that is known of the food.
func writeAmount(w io.Writer, a ingredient.Amount, food string) {
	spelled := func(v float64, u *measure.Unit) string {
		s := measure.Spell(v, u, measure.Strict)
		if !s.Exact {
			return "about " + s.Text
		}
		return s.Text
	}
	for _, v := range ends(a) {
		fmt.Fprintf(w, "%s %s\n", measure.Number(v), a.Unit.Name)
		for _, name := range others[a.Unit.Dimension] {
			u := measure.Named(name)
			n := measure.Convert(v, a.Unit, u)
			text := spelled(n, u)
			if u == a.Unit && (text == measure.Number(v)+" "+u.Short || text == measure.Number(v)+" "+u.Many) {
				continue // as it was asked
			}
			fmt.Fprintf(w, "  %-28s %s\n", fmt.Sprintf("%.6g %s", n, name), text)
		}
		writePara(w, "  ", a.Unit.Source.String())
		writeDensity(w, v, a.Unit, food)
	}
}

// ends are the ends of a range, or the one number.
func ends(a ingredient.Amount) []float64 {
	if a.Lo == a.Hi {
		return []float64{a.Lo}
	}
	return []float64{a.Lo, a.Hi}
}

func writeDensity(w io.Writer, v float64, u *measure.Unit, food string) {
	if food == "" {
		return
	}
	d, ok := measure.DensityOf(ingredient.Name(food))
	if !ok {
		d, ok = measure.DensityOf(ingredient.Key(food))
	}
	switch {
	case !ok:
		writePara(w, "  ", fmt.Sprintf("what a cup of %s weighs is not in the table", food))
	case u.Dimension == measure.Volume:
		g, least, most := d.Weigh(v, u)
		line := fmt.Sprintf("%s: about %s (%s)", d.Food, measure.Spell(g, measure.Named("gram"), measure.Loose).Text, d.Source)
		if most > least {
			line += fmt.Sprintf("; %.0f to %.0f g by other charts (a %s: %s)", least, most, d.Per.Short, d.Others)
		}
		writePara(w, "  ", line)
	case u.Dimension == measure.Mass:
		ml := d.FillML(v * u.Size)
		cups := measure.Named("US cup")
		writePara(w, "  ", fmt.Sprintf("%s: about %s (%s)", d.Food, measure.Spell(ml/cups.Size, cups, measure.Loose).Text, d.Source))
	}
}
