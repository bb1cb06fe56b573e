-- Schema 2: kerned sorts. Of those that are there nothing was said, so none is one.

ALTER TABLE sort ADD COLUMN
    kerned INTEGER NOT NULL DEFAULT 0 CHECK (kerned = 0 OR kerned = 1 AND kind <> 'space'); -- its face overhangs the body on the right
