-- Amendments that wait for a second person, and appeals.

CREATE TABLE "amendment_proposal" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "sheet_id" UUID NOT NULL,
    "revision" INTEGER NOT NULL,
    "outcome_before" TEXT NOT NULL,
    "outcome_after" TEXT NOT NULL,
    "body" JSONB NOT NULL,
    "reason" TEXT NOT NULL,
    "proposed_by_id" UUID NOT NULL,
    "proposed_at" TIMESTAMPTZ(3) NOT NULL,
    "decision" TEXT,
    "decided_by_id" UUID,
    "decided_at" TIMESTAMPTZ(3),
    "decision_reason" TEXT,

    CONSTRAINT "amendment_proposal_pkey" PRIMARY KEY ("id")
);
CREATE INDEX "amendment_proposal_sheet_id_idx" ON "amendment_proposal"("sheet_id");
ALTER TABLE "amendment_proposal" ADD CONSTRAINT "amendment_proposal_sheet_id_fkey" FOREIGN KEY ("sheet_id") REFERENCES "sheet"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "amendment_proposal" ADD CONSTRAINT "amendment_proposal_proposed_by_id_fkey" FOREIGN KEY ("proposed_by_id") REFERENCES "account"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "amendment_proposal" ADD CONSTRAINT "amendment_proposal_decided_by_id_fkey" FOREIGN KEY ("decided_by_id") REFERENCES "account"("id") ON DELETE SET NULL ON UPDATE CASCADE;

CREATE TABLE "appeal" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "sheet_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "appealed_by_id" UUID NOT NULL,
    "appealed_at" TIMESTAMPTZ(3) NOT NULL,
    "decision" TEXT,
    "decided_by_id" UUID,
    "decided_at" TIMESTAMPTZ(3),
    "decision_reason" TEXT,

    CONSTRAINT "appeal_pkey" PRIMARY KEY ("id")
);
CREATE INDEX "appeal_sheet_id_idx" ON "appeal"("sheet_id");
ALTER TABLE "appeal" ADD CONSTRAINT "appeal_sheet_id_fkey" FOREIGN KEY ("sheet_id") REFERENCES "sheet"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "appeal" ADD CONSTRAINT "appeal_appealed_by_id_fkey" FOREIGN KEY ("appealed_by_id") REFERENCES "account"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "appeal" ADD CONSTRAINT "appeal_decided_by_id_fkey" FOREIGN KEY ("decided_by_id") REFERENCES "account"("id") ON DELETE SET NULL ON UPDATE CASCADE;

ALTER TABLE amendment_proposal
  ADD CONSTRAINT amendment_proposal_decision CHECK (decision IN ('confirm', 'refuse')),
  ADD CONSTRAINT amendment_proposal_reason CHECK (btrim(reason) <> ''),
  ADD CONSTRAINT amendment_proposal_decided CHECK (
    num_nulls(decision, decided_at, decision_reason) IN (0, 3)),
  ADD CONSTRAINT amendment_proposal_second_person CHECK (decided_by_id <> proposed_by_id);
CREATE UNIQUE INDEX amendment_proposal_one_open ON amendment_proposal (sheet_id) WHERE decision IS NULL;

ALTER TABLE appeal
  ADD CONSTRAINT appeal_decision CHECK (decision IN ('uphold', 'dismiss')),
  ADD CONSTRAINT appeal_reason CHECK (btrim(reason) <> ''),
  ADD CONSTRAINT appeal_decided CHECK (num_nulls(decision, decided_at, decision_reason) IN (0, 3)),
  ADD CONSTRAINT appeal_second_person CHECK (decided_by_id <> appealed_by_id);
CREATE UNIQUE INDEX appeal_one_open ON appeal (sheet_id) WHERE decision IS NULL;
