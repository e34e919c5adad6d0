-- Terms may ask for a commander's signature under an award that tests made, and allow a commander to extend one by days.
ALTER TABLE "certification_terms" ADD COLUMN "approval" TEXT NOT NULL DEFAULT 'none',
    ADD COLUMN "extension_days" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE certification_terms
  ADD CONSTRAINT certification_terms_approval CHECK (approval IN ('none', 'required', 'required-from-award')),
  ADD CONSTRAINT certification_terms_extension_days CHECK (extension_days BETWEEN 0 AND 3660);

-- From which day an award is in force; null: it waits for a commander.
ALTER TABLE "earned_award" ADD COLUMN "in_force_from" DATE;
UPDATE earned_award SET in_force_from = awarded_on;
CREATE INDEX earned_award_waiting ON earned_award (soldier_id, certification_id) WHERE in_force_from IS NULL;

CREATE TABLE "award_decision" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "soldier_id" UUID NOT NULL,
    "certification_id" UUID NOT NULL,
    "sheet_id" UUID NOT NULL,
    "decision" TEXT NOT NULL,
    "on_day" DATE NOT NULL,
    "reason" TEXT NOT NULL,
    "by_id" UUID,
    "taken_back_at" TIMESTAMPTZ(3),
    "taken_back_reason" TEXT,
    "taken_back_by_id" UUID,
    "entry" BIGSERIAL NOT NULL,

    CONSTRAINT "award_decision_pkey" PRIMARY KEY ("id")
);
CREATE INDEX "award_decision_soldier_id_idx" ON "award_decision"("soldier_id");
CREATE INDEX "award_decision_sheet_id_idx" ON "award_decision"("sheet_id");
ALTER TABLE "award_decision" ADD CONSTRAINT "award_decision_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "award_decision" ADD CONSTRAINT "award_decision_certification_id_fkey" FOREIGN KEY ("certification_id") REFERENCES "certification"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "award_decision" ADD CONSTRAINT "award_decision_sheet_id_fkey" FOREIGN KEY ("sheet_id") REFERENCES "sheet"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "award_decision" ADD CONSTRAINT "award_decision_by_id_fkey" FOREIGN KEY ("by_id") REFERENCES "account"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE "award_decision" ADD CONSTRAINT "award_decision_taken_back_by_id_fkey" FOREIGN KEY ("taken_back_by_id") REFERENCES "account"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE award_decision
  ADD CONSTRAINT award_decision_known CHECK (decision IN ('approve', 'refuse')),
  ADD CONSTRAINT award_refusal_has_reason CHECK (decision = 'approve' OR btrim(reason) <> ''),
  ADD CONSTRAINT award_decision_taken_back_has_reason
    CHECK ((taken_back_at IS NULL) = (taken_back_reason IS NULL) AND btrim(taken_back_reason) <> '');
-- One decision about an award holds at a time.
CREATE UNIQUE INDEX award_decision_one ON award_decision (certification_id, sheet_id) WHERE taken_back_at IS NULL;

CREATE TABLE "award_extension" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "soldier_id" UUID NOT NULL,
    "certification_id" UUID NOT NULL,
    "sheet_id" UUID,
    "carried_award_id" UUID,
    "days" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "on_day" DATE NOT NULL,
    "reason" TEXT NOT NULL,
    "by_id" UUID,
    "taken_back_at" TIMESTAMPTZ(3),
    "taken_back_reason" TEXT,
    "taken_back_by_id" UUID,
    "entry" BIGSERIAL NOT NULL,

    CONSTRAINT "award_extension_pkey" PRIMARY KEY ("id")
);
CREATE INDEX "award_extension_soldier_id_idx" ON "award_extension"("soldier_id");
CREATE INDEX "award_extension_sheet_id_idx" ON "award_extension"("sheet_id");
CREATE INDEX "award_extension_carried_award_id_idx" ON "award_extension"("carried_award_id");
ALTER TABLE "award_extension" ADD CONSTRAINT "award_extension_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "award_extension" ADD CONSTRAINT "award_extension_certification_id_fkey" FOREIGN KEY ("certification_id") REFERENCES "certification"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "award_extension" ADD CONSTRAINT "award_extension_sheet_id_fkey" FOREIGN KEY ("sheet_id") REFERENCES "sheet"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "award_extension" ADD CONSTRAINT "award_extension_carried_award_id_fkey" FOREIGN KEY ("carried_award_id") REFERENCES "carried_award"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "award_extension" ADD CONSTRAINT "award_extension_by_id_fkey" FOREIGN KEY ("by_id") REFERENCES "account"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE "award_extension" ADD CONSTRAINT "award_extension_taken_back_by_id_fkey" FOREIGN KEY ("taken_back_by_id") REFERENCES "account"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE award_extension
  ADD CONSTRAINT award_extension_of_one_award CHECK ((sheet_id IS NULL) <> (carried_award_id IS NULL)),
  ADD CONSTRAINT award_extension_days CHECK (days BETWEEN 1 AND 3660),
  ADD CONSTRAINT award_extension_kind CHECK (kind IN ('deployment', 'injury', 'other')),
  ADD CONSTRAINT award_extension_has_reason CHECK (btrim(reason) <> ''),
  ADD CONSTRAINT award_extension_taken_back_has_reason
    CHECK ((taken_back_at IS NULL) = (taken_back_reason IS NULL) AND btrim(taken_back_reason) <> '');

ALTER TABLE standing DROP CONSTRAINT standing_status;
ALTER TABLE standing ADD CONSTRAINT standing_status CHECK (
  status IN ('suspended', 'certified', 'awaiting approval', 'retest due', 'part way', 'lapsed', 'no test yet'));
