-- Sisters stand in the unit's own order; all at nought: by name. A unit that moved is another one that goes on from what it
-- was: nobody's past, and no figure of it, moves with it.
ALTER TABLE unit
  ADD COLUMN place INT NOT NULL DEFAULT 0 CHECK (place >= 0),
  ADD COLUMN continues UUID[] NOT NULL DEFAULT '{}';
