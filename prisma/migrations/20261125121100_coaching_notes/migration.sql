-- What was drilled with a candidate, and what came of it.

CREATE TABLE "coaching_note" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "candidate_id" UUID NOT NULL,
    "on_day" DATE NOT NULL,
    "standard" TEXT NOT NULL,
    "measures" TEXT[],
    "text" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL,
    "changed_at" TIMESTAMPTZ(3),
    "removed_at" TIMESTAMPTZ(3),

    CONSTRAINT "coaching_note_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "coaching_note_candidate_id_on_day_id_idx" ON "coaching_note"("candidate_id", "on_day", "id");
CREATE INDEX "coaching_note_by_id_idx" ON "coaching_note"("by_id");
ALTER TABLE "coaching_note" ADD CONSTRAINT "coaching_note_candidate_id_fkey" FOREIGN KEY ("candidate_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "coaching_note" ADD CONSTRAINT "coaching_note_by_id_fkey" FOREIGN KEY ("by_id") REFERENCES "account"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE coaching_note ADD CONSTRAINT coaching_note_says_something CHECK (cardinality(measures) > 0 OR text <> '');
