// Package render turns a pattern into a drawing: one scene, many outputs.
package render
