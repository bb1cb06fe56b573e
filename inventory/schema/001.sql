-- Schema 1: fonts, their sorts, and the ledger.

CREATE TABLE font (
    id      INTEGER PRIMARY KEY,
    name    TEXT    NOT NULL UNIQUE CHECK (name <> ''),
    body    INTEGER NOT NULL CHECK (body > 0), -- milli-points
    spacing INTEGER NOT NULL CHECK (spacing IN (0, 1))
) STRICT;

-- No sort is ever removed, so ids rise in the order of entry.
CREATE TABLE sort (
    id        INTEGER PRIMARY KEY,
    font      INTEGER NOT NULL REFERENCES font (id),
    name      TEXT    NOT NULL CHECK (name <> ''),
    text      TEXT    NOT NULL CHECK ((text = '') = (kind = 'space')),
    kind      TEXT    NOT NULL CHECK (kind IN ('lower', 'capital', 'small capital', 'figure', 'point', 'ligature', 'accent', 'sign', 'space')),
    set_width INTEGER NOT NULL CHECK (set_width > 0), -- millionths of an em
    retired   INTEGER NOT NULL DEFAULT 0 CHECK (retired IN (0, 1)),
    UNIQUE (font, name)
) STRICT;

-- A retired sort keeps its name, so that it can be taken back, and frees its text.
CREATE UNIQUE INDEX sort_text ON sort (font, kind, text) WHERE text <> '' AND retired = 0;

-- The ledger. What is on hand of a sort is the sum of change; nothing else says it.
CREATE TABLE entry (
    id     INTEGER PRIMARY KEY,
    sort   INTEGER NOT NULL REFERENCES sort (id),
    date   TEXT    NOT NULL, -- RFC 3339, UTC
    kind   TEXT    NOT NULL, -- 'opening'
    change INTEGER NOT NULL, -- pieces
    basis  TEXT    NOT NULL CHECK (basis IN ('counted', 'weighed', 'measured', 'bill'))
) STRICT;

CREATE INDEX entry_sort ON entry (sort);

-- INSERT OR REPLACE fires these only with recursive_triggers, which the shop sets.
CREATE TRIGGER entry_never_changed BEFORE UPDATE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry of the ledger is never changed');
END;

CREATE TRIGGER entry_never_removed BEFORE DELETE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry of the ledger is never removed');
END;
