// Package store keeps a document on disk: the pattern as it came in and the
// recipe applied to it, in one readable JSON file, saved so that no crash and
// no full disk can lose what was there.
package store
