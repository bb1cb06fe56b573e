package sorts

// A trie holds the texts of a font's sorts, byte by byte, so that the longest one that stands at a place of the text is
// found in one walk:
//
//	root -f-> (f) -f-> (ff) -i-> (ffi)
//	             \-i-> (fi)
//
// Node 0 is no node, node 1 the root. Each node has a full table of 256 arms: it is the walk that has to be fast.
type trie struct {
	arms   [][256]uint16
	values []int // what is found at a node: an index from 1, 0 for nothing
}

const root = 1

func newTrie() *trie {
	return &trie{arms: make([][256]uint16, 2), values: make([]int, 2)}
}

// nodes a trie may have: its arms are 16 bits wide.
const mostNodes = 1<<16 - 1

// put enters a text; it tells whether there was room. A text that is there already keeps its first value.
func (t *trie) put(text string, value int) bool {
	node := root
	for i := range len(text) {
		next := int(t.arms[node][text[i]])
		if next == 0 {
			next = len(t.arms)
			if next > mostNodes {
				return false
			}
			t.arms[node][text[i]] = uint16(next)
			t.arms = append(t.arms, [256]uint16{})
			t.values = append(t.values, 0)
		}
		node = next
	}
	if t.values[node] == 0 {
		t.values[node] = value
	}
	return true
}

// get finds a whole text; 0 if it is not there.
func (t *trie) get(text string) int {
	node := root
	for i := range len(text) {
		node = int(t.arms[node][text[i]])
	}
	return t.values[node]
}

// longest finds the longest entered text that s begins with: its value, 0 for none, and its length.
func (t *trie) longest(s string) (value, length int) {
	node := root
	for i := range len(s) {
		node = int(t.arms[node][s[i]])
		if node == 0 {
			break
		}
		if v := t.values[node]; v != 0 {
			value, length = v, i+1
		}
	}
	return value, length
}
