package window

import (
	"fmt"
	"image/color"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/app/desk"
	"truemat/app/lesson"
	"truemat/ops/check"
	"truemat/ops/cloth/suit"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// judge tells whether a check is broken in what is printed, with its sentence,
// or how many deserve a look, and leads to where they stand.
func (p *printing) judge(doubts desk.Doubts) {
	w, broken := p.w, doubts.Broken
	if n := len(doubts.Upset); n > 0 {
		does := "what they do"
		if n == 1 {
			does = "what it does"
		}
		said := titled(step.StepsInWords(doubts.Upset)) + " could not be done: " + does + " is not in this print. See the steps beside the mat first."
		if len(broken) > 0 {
			said += fmt.Sprintf(" Broken, too: %d of the checks.", len(broken))
		}
		p.tell("broken", w.palette.Poor, said)
		return
	}
	if len(broken) == 0 && len(doubts.Look) == 0 {
		p.tell("holds", w.palette.Good, "Every check holds in what is printed.")
		return
	}
	if len(broken) == 0 {
		where := p.leadTo(doubts.Look)
		p.tell("look", w.palette.Look, fmt.Sprintf("No check is broken in what is printed; %s a look before you cut%s.", deserve(len(doubts.Look)), where))
		return
	}
	where := p.leadTo(broken)
	first := broken[0]
	size := ""
	if len(p.job.Sizes) > 1 {
		size = titled(first.In(len(p.job.Sizes))) + ": "
	}
	var more []string
	for _, b := range broken[1:] {
		if called := lesson.Called(b.Check); !slices.Contains(more, called) {
			more = append(more, called)
		}
	}
	said, found := first.Check.Text, first.Check.Found()
	ways := []string{said, found}
	if len(more) > 0 {
		counted := fmt.Sprintf(" Broken, too: %d more.", len(broken)-1)
		ways = []string{said + " Broken, too" + where + ": " + strings.Join(more, ", ") + ".", said + counted, asSentence(found) + counted}
	}
	for _, way := range ways { // the first for which there is room
		if said = unit.Restate(size+asSentence(way), w.unit); len(p.inLines(said)) <= toldLines {
			break
		}
	}
	p.tell("broken", w.palette.Poor, said)
}

// leadTo lets the places be pressed in which what does not hold stands, and
// says them: those of cloths and elastics have a page of their own.
func (p *printing) leadTo(doubts []check.Doubt) (where string) {
	w := p.w
	var onMat, onCloth []check.Doubt
	for _, d := range doubts {
		if suit.Judges(d.Check) {
			onCloth = append(onCloth, d)
		} else {
			onMat = append(onMat, d)
		}
	}
	if len(onMat) > 0 {
		first := p.nearest(onMat)
		p.lead("See beside the mat", first, func() { w.sheet.close(); w.column.showCheck(first.Check) })
	}
	if len(onCloth) > 0 {
		p.lead(partSuits, p.nearest(onCloth), func() { w.clothPage(); w.clothTo(partSuits) })
	}
	switch {
	case len(onCloth) == 0:
		return ", see the checks beside the mat"
	case len(onMat) == 0:
		return fmt.Sprintf(", see %q", partSuits)
	}
	return fmt.Sprintf(", see beside the mat (%d) and %q (%d)", len(onMat), partSuits, len(onCloth))
}

// nearest is the first that is in the size shown, else the first.
func (p *printing) nearest(doubts []check.Doubt) check.Doubt {
	for _, d := range doubts {
		if slices.Contains(d.Sizes, p.w.desk.Size()) {
			return d
		}
	}
	return doubts[0]
}

// lead adds a word that leaves the print for what stands elsewhere, in a size
// in which it is so.
func (p *printing) lead(word string, d check.Doubt, there func()) {
	w := p.w
	size := w.desk.Size()
	if !slices.Contains(d.Sizes, size) {
		size = d.Sizes[0]
		word += ", " + size
	}
	b := w.link(word, func() {
		if size != w.desk.Size() {
			w.showSize(size)
		}
		there()
	})
	b.name = "lead " + word
	p.ways = append(p.ways, b)
}

func deserve(n int) string {
	if n == 1 {
		return "one thing deserves"
	}
	return fmt.Sprintf("%d things deserve", n)
}

// toldLines is how many lines are kept for what is wrong, so that nothing jumps.
const toldLines = 2

// toldWide is the width there is for what is told of a print, beside its sign
// and the words that lead elsewhere.
func (p *printing) toldWide() float32 {
	wide := float32(0)
	for _, b := range p.ways {
		wide = max(wide, b.MinSize().Width+16)
	}
	return p.wide - 28 - wide
}

// inLines breaks what is told of a print to the width there is for it.
func (p *printing) inLines(said string) []string {
	return broken(said, p.toldWide(), func(s string) float32 { return fyne.MeasureText(s, normal, fyne.TextStyle{}).Width })
}

// tell fills the lines that are kept for what is wrong.
func (p *printing) tell(sign string, ink color.NRGBA, said string) {
	lines := p.inLines(said)
	if len(lines) > toldLines && len(p.ways) > 0 { // in a low window the sentence comes first
		p.ways = nil
		lines = p.inLines(said)
	}
	if len(lines) > toldLines {
		lines = append(lines[:toldLines-1], shortened(strings.Join(lines[toldLines-1:], " "), p.toldWide(), normal))
	}
	box := container.New(stack{})
	for _, l := range lines {
		box.Add(text(l, normal, false, p.w.palette.Text))
	}
	told := container.New(beside{}, icon(sign, ink, 18), box)
	if len(p.ways) == 0 {
		p.state.Add(told)
		return
	}
	p.state.Add(container.New(ends{}, told, container.New(stack{}, p.ways...)))
}
