// Package render turns a pattern into a drawing: one scene, many outputs.
//
// [PieceScene], [PatternScene] and [NestScene] draw pieces as a [Scene] of
// figures and labels at true size; [WriteSVG], [WritePNG], [Picture] and
// [WritePDF] put a scene on one sheet. [Tile] arranges pieces on a large
// sheet, divides it into pages that join, and writes them as a PDF with a
// cover; [PlanTiles] tells how it would, without writing.
//
// Millimetres, y up. The same input gives the same bytes in every output.
package render
