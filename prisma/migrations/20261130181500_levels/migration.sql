-- What a unit calls the levels of its tree, from the top down. None: the words it begins with.
CREATE TABLE unit_level (
  code text PRIMARY KEY CHECK (code ~ '^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$'),
  one text NOT NULL CHECK (btrim(one) <> '' AND length(one) <= 400),
  many text NOT NULL CHECK (btrim(many) <> '' AND length(many) <= 400),
  compared boolean NOT NULL,
  place int NOT NULL UNIQUE CHECK (place >= 0)
);
CREATE UNIQUE INDEX unit_level_compared ON unit_level (compared) WHERE compared;
ALTER TABLE unit DROP CONSTRAINT unit_kind;
ALTER TABLE unit ADD CONSTRAINT unit_kind CHECK (kind ~ '^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$');
