// Package lesson explains the program: a guided first alteration that follows
// what is really done on the desk, a player that shows any recipe step by
// step, and short texts on tools, checks and keys. It knows no window.
package lesson
