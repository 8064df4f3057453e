package command

import (
	"bytes"
	"errors"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestPicturesAreAskedOfTheWindow(t *testing.T) {
	before := Pictures
	t.Cleanup(func() { Pictures = before })
	var asked string
	Pictures = func(folder string, told func(string)) error {
		asked = folder
		told(folder + "/first-start.png")
		return nil
	}
	var out, errOut bytes.Buffer
	require.Equal(t, Fine, Run([]string{"pictures", "--out", "here"}, &out, &errOut))
	require.Equal(t, "here", asked)
	require.Equal(t, "here/first-start.png\n", out.String())

	for _, args := range [][]string{{"pictures"}, {"pictures", "--out", "here", "there"}} {
		asked = ""
		require.Equal(t, Nothing, Run(args, &out, &errOut))
		require.Empty(t, asked)
	}
	Pictures = func(string, func(string)) error { return errors.New("the folder is full") }
	errOut.Reset()
	require.Equal(t, Nothing, Run([]string{"pictures", "--out", "here"}, &out, &errOut))
	require.Equal(t, "truemat pictures: the folder is full\n", errOut.String())
	Pictures = nil
	require.Equal(t, Nothing, Run([]string{"pictures", "--out", "here"}, &out, &errOut))
}
