-- Tallies by version of a standard and by attempt number, in one row each, with readings and graders; marks of a sheet.

-- Tallies cannot be carried over: they are kept by what a sheet adds, and these were added without readings and graders.
DO $$
BEGIN
  IF EXISTS (SELECT FROM sheet WHERE tallied_kind IS NOT NULL) THEN
    RAISE EXCEPTION 'This database holds tests counted by a version before the first release. Start on an empty one and enter them again.';
  END IF;
END $$;

DROP TABLE "measure_tally", "fault_tally", "sponsor_tally", "tally";

-- CreateTable
CREATE TABLE "tally" (
    "id" BIGSERIAL NOT NULL,
    "standard_version_id" UUID NOT NULL,
    "unit_id" UUID NOT NULL,
    "grain" TEXT NOT NULL,
    "start" DATE NOT NULL,
    "arm" TEXT NOT NULL,
    "number" SMALLINT NOT NULL,
    "attempts" INTEGER NOT NULL,
    "passes" INTEGER NOT NULL,
    "recorded" INTEGER NOT NULL,
    "stopped" INTEGER NOT NULL,
    "measures" INTEGER[],
    "faults" INTEGER[],
    "readings" INTEGER[],

    CONSTRAINT "tally_pkey" PRIMARY KEY ("id")
-- The tallies of large units are changed by every sheet; room beside them keeps their indexes out of it.
) WITH (fillfactor = 70);

-- CreateTable
CREATE TABLE "person_tally" (
    "tally_id" BIGINT NOT NULL,
    "role" TEXT NOT NULL,
    "soldier_id" UUID NOT NULL,
    "attempts" INTEGER NOT NULL,
    "passes" INTEGER NOT NULL,

    CONSTRAINT "person_tally_pkey" PRIMARY KEY ("tally_id","role","soldier_id")
);

-- CreateIndex
CREATE UNIQUE INDEX "tally_unit_id_standard_version_id_grain_start_arm_number_key" ON "tally"("unit_id", "standard_version_id", "grain", "start", "arm", "number");

-- AddForeignKey
ALTER TABLE "tally" ADD CONSTRAINT "tally_standard_version_id_fkey" FOREIGN KEY ("standard_version_id") REFERENCES "standard_version"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "person_tally" ADD CONSTRAINT "person_tally_tally_id_fkey" FOREIGN KEY ("tally_id") REFERENCES "tally"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "person_tally" ADD CONSTRAINT "person_tally_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "tally"
  ADD CONSTRAINT "tally_grain" CHECK (
    (grain = 'day') OR (grain = 'month' AND extract(day FROM start) = 1)
    OR (grain = 'year' AND extract(doy FROM start) = 1)),
  ADD CONSTRAINT "tally_number" CHECK (number BETWEEN 1 AND 3),
  ADD CONSTRAINT "tally_counts" CHECK (
    passes >= 0 AND recorded >= 0 AND stopped >= 0 AND passes <= attempts AND recorded <= attempts AND stopped <= attempts
    AND 0 <= ALL (measures) AND 0 <= ALL (faults) AND 0 <= ALL (readings));
ALTER TABLE "person_tally"
  ADD CONSTRAINT "person_tally_role" CHECK (role IN ('sponsor', 'grader')),
  ADD CONSTRAINT "person_tally_counts" CHECK (passes >= 0 AND passes <= attempts);

-- ─── Sheets ───

ALTER TABLE "sheet" ADD COLUMN "marks" TEXT NOT NULL DEFAULT '';
UPDATE sheet SET marks =
  COALESCE((
    SELECT string_agg(CASE marked.mark WHEN 'GO' THEN 'G' WHEN 'NO-GO' THEN 'N' ELSE '-' END, '' ORDER BY major.place)
    FROM jsonb_array_elements(v.definition -> 'majors') WITH ORDINALITY AS major(value, place)
    LEFT JOIN LATERAL (
      SELECT m ->> 'mark' AS mark FROM jsonb_array_elements(r.body -> 'majors') AS m
      WHERE m ->> 'code' = major.value ->> 'code') marked ON true), '')
  || COALESCE((
    SELECT string_agg(CASE minor.value ->> 'outcome' WHEN 'GO' THEN 'G' WHEN 'NO-GO' THEN 'N' ELSE '-' END, ''
      ORDER BY minor.place)
    FROM jsonb_array_elements(r.score -> 'minors') WITH ORDINALITY AS minor(value, place)), '')
FROM sheet_revision r, standard_version v
WHERE r.sheet_id = sheet.id AND r.number = sheet.revision AND v.id = sheet.standard_version_id
  AND sheet.ending <> 'recorded';
ALTER TABLE "sheet" ALTER COLUMN "marks" DROP DEFAULT, ADD CONSTRAINT "sheet_marks" CHECK (marks ~ '^[GN-]*$');

-- Attempts of a unit in a period with all that pairs of measures and item analysis ask for.
CREATE INDEX sheet_attempts ON sheet (tallied_unit_id, day)
  INCLUDE (standard_version_id, arm, tallied_kind, marks, candidate_id) WHERE tallied_kind IS NOT NULL;
-- Sheets that no figure counts.
CREATE INDEX sheet_not_counted ON sheet (day) WHERE tallied_kind IS NULL;
