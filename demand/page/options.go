package page

// options are what a page has beside its lines of text. All are off unless asked for.
type options struct {
	title      string
	folio      func(page int) string
	catchwords bool
	signature  func(page int) string
	recto      func(page int) bool
	drop       int
	noWidow    bool
	ends       []End
}

// An Option asks for something beside the lines of text. Pages are counted from 1.
type Option func(*options)

// HeadLine puts a line at the head of every page but those that open with a drop: a running title in its middle and the
// folio at its outer end, by what recto says; either may be "" or nil.
func HeadLine(title string, folio func(page int) string, recto func(page int) bool) Option {
	return func(o *options) { o.title, o.folio, o.recto = title, folio, recto }
}

// DirectionLine puts a line at the foot: the catchword, which is the first word of the next page, at its end, and the signature in
// its middle. A page that has neither has no such line.
func DirectionLine(catchwords bool, signature func(page int) string) Option {
	return func(o *options) { o.catchwords, o.signature = catchwords, signature }
}

// Drop begins the work, and every page after a form feed, with so many blank lines.
func Drop(lines int) Option { return func(o *options) { o.drop = lines } }

// NoWidow lets no page begin with the last line of a paragraph: an opening may run a line short or long. recto tells which
// pages stand on the right.
func NoWidow(recto func(page int) bool) Option {
	return func(o *options) { o.noWidow, o.recto = true, recto }
}

func (o *options) headed() bool { return o.title != "" || o.folio != nil }
