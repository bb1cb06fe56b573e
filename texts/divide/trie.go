package divide

import "math/bits"

// levels are the figures of a pattern, four bits each, the one before its first letter lowest. Those of several patterns
// that begin at one letter are put together by taking the greater of each.
type levels uint64

// highest is the greatest figure: the fourth bit is left free for comparing.
const highest = 7

// greater takes of each figure the greater, all sixteen at once: with the free bit set in a, it stays set where a is not
// less than b.
func greater(a, b levels) levels {
	const free = 0x8888_8888_8888_8888
	kept := (((a | free) - b) & free >> 3) * highest
	return a&kept | b&^kept
}

// A trie holds the patterns of a language. What stands at a node are the figures of all patterns that end on the way to
// it, so that of a walk from one letter of a word only the last node reached counts:
//
//	h, e --n-> h e2n --a-> h e2n a4 --t-> h e2n5a4t
//	           he2n        and hena4      and hen5at
//
// The first two letters are one step, by a table: most walks end there, or after one more.
type trie struct {
	pairs []node // copies of the nodes after two letters, by first letter x 64 + second letter
	nodes []node // from 1; node 0 is where no pattern goes
}

// A node knows the set of letters that go on from it; their nodes stand side by side in the order of the letters' numbers.
type node struct {
	letters uint64
	levels  levels
	next    uint32
}

// walk goes from the first of some letters as far as patterns do, and gives the figures of those that end on the way.
// There are at least four letters, and the last is none.
func (t *trie) walk(letters []uint8) levels {
	n := &t.pairs[int(letters[0]&63)<<6|int(letters[1]&63)]
	got := n.levels
	// Two steps are always taken, the second perhaps on the spot: where nearly every walk ends there is no branch to be
	// guessed wrong, and the walks from several letters overlap.
	n, there := t.step(n, letters[2])
	got = got&^there | n.levels
	n, there = t.step(n, letters[3])
	got = got&^there | n.levels
	for _, letter := range letters[4:] {
		if n.letters>>(letter&63)&1 == 0 {
			break
		}
		n, _ = t.step(n, letter)
		got = n.levels
	}
	return got
}

// step gives the node that a letter leads to and all bits set, or node 0, which has nothing, and no bit.
func (t *trie) step(n *node, letter uint8) (after *node, there levels) {
	letter &= 63
	there = -levels(n.letters >> letter & 1)
	before := bits.OnesCount64(n.letters & (1<<letter - 1))
	return &t.nodes[(levels(n.next)+levels(before))&there], there
}

// newTrie makes the trie of some patterns. Each node begins with the list of the patterns that go through it, and hands
// them on to the nodes after it; no pattern is looked at more often than it has letters.
func newTrie(list []pattern) *trie {
	const root = 1
	t := &trie{pairs: make([]node, 64*64), nodes: make([]node, root+1, 2*len(list)+64)}
	through := make([]int32, root+1, cap(t.nodes)) // by node: the first of its patterns, from 1
	following := make([]int32, len(list)+1)        // by pattern: the next in the same list, 0 after the last
	for i := range list {
		following[i+1] = int32(i)
	}
	through[root] = int32(len(list))
	for n, depth, deeper := root, 0, root+1; n < len(t.nodes); n++ {
		if n == deeper { // nodes are made depth by depth
			depth, deeper = depth+1, len(t.nodes)
		}
		var (
			letters uint64
			lists   [64]int32 // by letter
			levels  = t.nodes[n].levels
		)
		for i := through[n]; i != 0; {
			next := following[i]
			p := &list[i-1]
			if letter := p.letter(depth); letter == none {
				levels = greater(levels, p.levels)
			} else {
				letters |= 1 << (letter & 63)
				following[i], lists[letter&63] = lists[letter&63], i
			}
			i = next
		}
		t.nodes[n] = node{letters, levels, uint32(len(t.nodes))}
		for ; letters != 0; letters &= letters - 1 {
			t.nodes = append(t.nodes, node{levels: levels})
			through = append(through, lists[bits.TrailingZeros64(letters)])
		}
	}
	t.pair(&t.nodes[root])
	return t
}

// pair makes the table of the first two letters. Where the second goes on with no pattern, the first one's count.
func (t *trie) pair(root *node) {
	for first := range uint8(64) {
		one, there := t.step(root, first)
		if there == 0 {
			continue
		}
		row := t.pairs[int(first)<<6:][:64]
		for second := range row {
			if two, there := t.step(one, uint8(second)); there != 0 {
				row[second] = *two
			} else {
				row[second].levels = one.levels
			}
		}
	}
}
