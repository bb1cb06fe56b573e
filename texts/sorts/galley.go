package sorts

// A Galley is where cut sorts are set down, one after another.
type Galley struct {
	IDs   []ID
	Notes []Note // what was made up or is missing, in order
	Soft  []int  // places in the text where soft hyphens allow a division, in order; of several on end, the last
}

// A Note says that something else stands for a character of the manuscript, or what was done about a kerned sort.
type Note struct {
	At        int  // the first sort that stands for it, as an index into the galley's IDs; of a kerned sort, what follows it
	Character rune // the character of the manuscript, quotes and dashes as they were turned; of a kerned sort, none
	Sort, By  ID   // the kerned sort, and the space that parts it from the next
	Rule      int  // which of house.Substitutes, or one of those below
}

// Rules that are none of house.Substitutes.
const (
	NoSort  = -1 - iota // no sort for the character at all
	Eased               // the kerned sort is parted by a space from what it would strike
	Strikes             // it is not, for want of a space
)

// A Mark is a state of the galley to go back to.
type Mark struct{ ids, notes, soft int }

// Mark remembers how far the galley is filled.
func (g *Galley) Mark() Mark { return Mark{len(g.IDs), len(g.Notes), len(g.Soft)} }

// Lift takes off what was set down since the mark.
func (g *Galley) Lift(m Mark) {
	g.IDs, g.Notes, g.Soft = g.IDs[:m.ids], g.Notes[:m.notes], g.Soft[:m.soft]
}

// Clear empties the galley and keeps its room.
func (g *Galley) Clear() { g.Lift(Mark{}) }

// IDs is how many sorts the galley held at the mark.
func (m Mark) IDs() int { return m.ids }

// Soft is how many soft hyphens had been noted at the mark.
func (m Mark) Soft() int { return m.soft }
