package main

import (
	"bufio"
	"context"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/command"
)

func TestDisplayWithoutOpenGLIsToldAndNotWaitedFor(t *testing.T) {
	if _, err := exec.LookPath("Xvfb"); err != nil {
		t.Skip("Xvfb is not here; it is needed for a display without OpenGL")
	}
	require.NotEmpty(t, program, "the program was built")
	number, end, err := os.Pipe()
	require.NoError(t, err)
	defer number.Close()
	display := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", "800x600x24", "-nolisten", "tcp", "-noreset", "-extension", "GLX") // without -noreset it is away for a moment when the first client leaves
	display.ExtraFiles = []*os.File{end}
	require.NoError(t, display.Start())
	defer func() {
		_ = display.Process.Kill()
		_ = display.Wait()
	}()
	end.Close()
	name, err := bufio.NewReader(number).ReadString('\n')
	require.NoError(t, err)

	ctx, stop := context.WithTimeout(context.Background(), patience)
	defer stop()
	cmd := exec.CommandContext(ctx, program)
	cmd.Env = append(os.Environ(), "DISPLAY=:"+strings.TrimSpace(name), "HOME="+t.TempDir())
	out, err := cmd.CombinedOutput()
	require.NoError(t, ctx.Err(), "it ends by itself")
	require.Error(t, err)
	require.Equal(t, command.Nothing, cmd.ProcessState.ExitCode())
	require.Contains(t, string(out), "GLX")
	require.Contains(t, string(out), "truemat help")
}
