-- Attempts by kind: the first ever of a standard, the second and later ones after NO-GOs in a row, renewals. Until now a
-- renewal was counted among the first attempts. Tallies hold sums, out of which no renewal can be taken, so they begin
-- empty; the server counts the sheets anew before it opens (assessment/services/recount/count-anew.ts).
ALTER TABLE sheet DROP CONSTRAINT sheet_tallied;
UPDATE sheet SET tallied_kind = NULL, tallied_unit_id = NULL WHERE tallied_kind IS NOT NULL;
ALTER TABLE sheet ADD CONSTRAINT sheet_tallied CHECK (
  (tallied_kind IS NULL AND tallied_unit_id IS NULL)
  OR (tallied_kind IN ('first', 'second', 'later', 'renewal') AND state = 'counted' AND purpose = 'test'
      AND outcome <> 'VOID' AND second_of IS NULL));

TRUNCATE person_tally, tally;
ALTER TABLE tally DROP COLUMN "number", ADD COLUMN "kind" TEXT NOT NULL,
  ADD CONSTRAINT tally_kind CHECK (kind IN ('first', 'second', 'later', 'renewal'));
CREATE UNIQUE INDEX "tally_unit_id_standard_version_id_grain_start_arm_kind_key"
  ON "tally"("unit_id", "standard_version_id", "grain", "start", "arm", "kind");
