// Package unit reads lengths as a maker types them and writes them as she
// reads them: millimetres, centimetres, and inches with fractions. Inside
// the program a length is always a number of millimetres.
package unit
