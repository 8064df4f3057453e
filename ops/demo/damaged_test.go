package demo

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/check"
)

// worstByID returns the worst verdict of each check.
func worstByID(checks []check.Check) map[string]check.Verdict {
	rank := map[check.Verdict]int{check.Holds: 0, check.Look: 1, check.Broken: 2}
	worst := map[string]check.Verdict{}
	for _, c := range checks {
		if was, ok := worst[c.ID]; !ok || rank[c.Verdict] > rank[was] {
			worst[c.ID] = c.Verdict
		}
	}
	return worst
}

func TestEveryDamageTurnsJustItsOwnCheck(t *testing.T) {
	cases, err := Damaged()
	require.NoError(t, err)
	names := map[string]bool{}
	for _, c := range cases {
		t.Run(c.Name, func(t *testing.T) {
			assert.False(t, names[c.Name], "names differ")
			names[c.Name] = true
			require.NoError(t, c.Damaged.Validate())
			before := c.Before
			if c.Sound.Piece(framePiece) == nil {
				before = c.Sound
			}
			sound := worstByID(check.Run(before, c.Sound, check.Defaults()))
			checks := check.Run(c.Before, c.Damaged, check.Defaults())
			for _, ch := range checks {
				assert.False(t, ch.Verdict == check.Broken && (strings.Contains(ch.Text, "meet within") || strings.Contains(ch.Text, "meets that of") || strings.Contains(ch.Text, "straight within")), "what is broken is not told as if it held: %s", ch.Text)
			}
			damaged := worstByID(checks)
			turned := map[string]string{}
			for id, v := range damaged {
				if v != sound[id] && v != check.Holds {
					turned[id] = string(v)
				}
			}
			assert.Equal(t, map[string]string{c.Check: c.Verdict}, turned)
			if t.Failed() {
				for _, ch := range checks {
					if _, ok := turned[ch.ID]; ok && ch.Verdict != check.Holds {
						t.Log(ch.ID, ch.Text)
					}
				}
			}
		})
	}
}

func TestDamageIsThereForTheChecksOfAMaker(t *testing.T) {
	cases, err := Damaged()
	require.NoError(t, err)
	found := map[string]bool{}
	for _, c := range cases {
		found[c.Check] = true
	}
	for _, id := range []string{
		check.WireLength, check.WireOpening, check.WireDepth, check.WireInflection, check.WirePlay, check.CupWire, check.SeamLength,
		check.SeamNotches, check.SeamEase, check.SeamAllowance, check.SeamEnds, check.LineAllowance, check.RunOn, check.LineCorner, check.FoldSquare, check.HemLength, check.HemBody,
		check.ClothBelow, check.BridgeTop, check.LaceStraight, check.LaceAllowance, check.TurnedBack, check.TurnedRound, check.Outline,
		check.ShortEdge, check.CutLine, check.AlteredMark, check.Partner, check.ClosureHeight, check.ArrowTurned, check.HalvesAlike,
	} {
		assert.True(t, found[id], "no Tern is damaged for %s", id)
	}
}
