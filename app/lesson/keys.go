package lesson

// Key is a line of the table of keys.
type Key struct {
	Keys string
	Does string
}

// KeyGroup is a part of the table of keys.
type KeyGroup struct {
	Title string
	Keys  []Key
}

// Keys returns the table of keys, in the order in which one needs them.
func Keys() []KeyGroup {
	return []KeyGroup{
		{"Choosing and doing", []Key{
			{"N, P", "next and previous thing that can be chosen; N begins at the place of the lesson, else at what is selected, else at the first piece"},
			{"Space", "choose it, or go into the piece"},
			{"Arrows", "push by 1 mm, by 1/16 in where inches are read; turn a pinned piece by 1°"},
			{"Shift + arrows", "push by 10 mm or 1/2 in; turn by 10°"},
			{"Ctrl + arrows", "push by 0.1 mm or 1/64 in; turn by 0.1°"},
			{"Delete", "take away what is chosen, such as a notch"},
			{"Enter", "accept what is proposed"},
			{"Escape", "back out of what was begun"},
			{"Up, Down in a number", "draw it along as far as the arrows push, in inches to the next 1/16; the mat follows"},
			{"Tab, Shift + Tab", "to the next part of the window, and back"},
			{"Typing a number", "the mat shows it at once; Enter keeps it and, above the tools, goes back to the mat, where Enter accepts (in one that nothing was typed into Enter accepts at once); beside the mat the keys stay in a step's number, for the arrows, until Escape; Tab keeps it and goes on, in a step from number to number, then to the signs at their sides and to what can be done with it; Escape gives back what stood there"},
			{"A digit on an open step", "goes to its first number, also from what can be done with the step"},
			{"Tab above the tools", "to the next field of the tool, also to those for which the window has no room: the row goes on, as More… does by a press"},
			{"Shift + Tab on the mat", "to the last of the steps beside it, and on up to the checks and sizes"},
			{"Space, Enter in a list", "open it: up and down choose, and for a tool the mat shows what that would do; Enter takes it and, for a tool, goes back to the mat; a letter leaves it for the mat"},
			{"A letter", "take the tool that shows this letter"},
			{"Alt", "to the menus: arrows go along and down them, Enter chooses, Escape leaves them"},
		}},
		{"Seeing", []Key{
			{"+, −", "nearer, farther"},
			{"0 or Ctrl + 0", "fit all on the mat"},
			{"1 or Ctrl + 1", "real size"},
			{"Ctrl + T", "the checks in every size: arrows go from value to value, Enter to that size and place, Tab to the words above"},
			{"Ctrl + L", "cloth and sewing: up and down go from part to part, right goes into one"},
			{"Ctrl + D", "dim room, and bright again"},
			{"Ctrl + U", "millimetres, centimetres, inches in turn"},
			{"Wheel", "nearer and farther at the pointer"},
			{"Middle button, or Space and drag", "shove the mat about"},
		}},
		{"The document", []Key{
			{"Ctrl + Z", "take back"},
			{"Ctrl + Shift + Z", "take up again"},
			{"Ctrl + S", "save"},
			{"Ctrl + Shift + S", "save under another name"},
			{"Ctrl + O", "open"},
			{"Ctrl + Shift + O", "open what was worked on last, before what is open"},
			{"Ctrl + N", "begin: with a piece of your own, a drawing, or the Tern"},
			{"Ctrl + Shift + N", "add a plain piece by its measures"},
			{"Ctrl + B", "bring in a drawing; in its picture N and P go from corner to corner, the arrows along the outline, Space makes or takes a corner, Tab goes to its names and roles, where Enter keeps a name and goes back to the picture"},
			{"Ctrl + M", "wires and measures"},
			{"Ctrl + P", "print: Enter saves, Space ticks a size, Page Down and Page Up turn its pages, + shows one larger, − as before"},
			{"Ctrl + E", "export a drawing"},
			{"Ctrl + Q", "quit"},
			{"? or F1", "this table"},
			{"F2", "how the act of the lesson goes by keys, and no longer"},
		}},
	}
}
