package page

import "formewise/demand/stick"

// A maker puts lines on pages, one after another.
type maker struct {
	perPage int   // lines to a full page
	lengths []int // where some pages run longer or shorter, by page; nil: none does
	drop    int   // blank lines at the head of a page that begins the work or follows a form feed
	ends    []End // where the first pages end, whatever their lines say

	page    int  // the page in hand, from 1; 0 before the first
	line    int  // lines on it
	held    int  // blank lines beyond a full page whose end is given: they stand if text follows on it
	open    bool // there is a page in hand: no form feed has ended it
	dropped bool // a page has been begun since the last form feed
}

// full is how many lines the page in hand takes.
func (m *maker) full() int {
	if m.lengths != nil {
		return m.lengths[m.page-1]
	}
	return m.perPage
}

// done tells whether the page in hand takes no more: it is full, or what comes next lies beyond its end.
func (m *maker) done(at stick.Place) bool {
	if m.ended() {
		return !before(at, m.ends[m.page-1].Next)
	}
	return m.line == m.full()
}

// ended tells whether the page in hand is one whose end is given.
func (m *maker) ended() bool { return m.page <= len(m.ends) }

// text puts a line of text, which begins at a place, on its page and tells whether it begins that page.
func (m *maker) text(at stick.Place) (begins bool) {
	if begins = !m.open || m.done(at); begins {
		m.page++
		m.open = true
		m.line = 0
		if !m.dropped {
			m.line = m.drop
			m.dropped = true
		}
		m.held = 0
	}
	m.line += m.held + 1
	m.held = 0
	return begins
}

// blank puts a blank line on the page, unless it would head one.
func (m *maker) blank() bool {
	if !m.open || m.line >= m.full() {
		if m.open && m.ended() {
			m.held++
		}
		return false
	}
	m.line++
	return true
}

// feed ends the page in hand and gives the blank lines that fill it; a feed straight after another makes a page of nothing else.
func (m *maker) feed() (blanks int, begins bool) {
	if begins = !m.open; begins {
		m.page++
		m.line = 0
	}
	blanks = max(0, m.full()-m.line)
	m.line += blanks
	m.open = false
	m.dropped = false
	return blanks, begins
}
