// Package command is Truemat without a window: for scripts, tests and
// machines without a display. It parses, calls and prints; it computes no
// length itself.
package command
