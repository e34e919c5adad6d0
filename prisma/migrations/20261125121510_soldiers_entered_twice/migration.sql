-- A soldier who was entered twice: what became of the entry that was given up, so that it can be undone.

CREATE TABLE "soldier_merge" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "entry" BIGSERIAL NOT NULL,
    "kept_id" UUID NOT NULL,
    "away_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID,
    "reason" TEXT NOT NULL,
    "undone_at" TIMESTAMPTZ(3),
    "undone_by_id" UUID,
    "undo_reason" TEXT,
    "away" JSONB NOT NULL,
    "moved" JSONB NOT NULL,
    "put_aside" JSONB NOT NULL,
    "adopted" JSONB NOT NULL,
    "judged" JSONB NOT NULL,

    CONSTRAINT "soldier_merge_pkey" PRIMARY KEY ("id")
);

CREATE UNIQUE INDEX "soldier_merge_entry_key" ON "soldier_merge"("entry");
CREATE INDEX "soldier_merge_kept_id_idx" ON "soldier_merge"("kept_id");

ALTER TABLE "soldier_merge" ADD CONSTRAINT "soldier_merge_kept_id_fkey" FOREIGN KEY ("kept_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "soldier_merge" ADD CONSTRAINT "soldier_merge_by_id_fkey" FOREIGN KEY ("by_id") REFERENCES "account"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE "soldier_merge" ADD CONSTRAINT "soldier_merge_undone_by_id_fkey" FOREIGN KEY ("undone_by_id") REFERENCES "account"("id") ON DELETE SET NULL ON UPDATE CASCADE;

ALTER TABLE soldier_merge
  ADD CONSTRAINT soldier_merge_of_two CHECK (kept_id <> away_id),
  ADD CONSTRAINT soldier_merge_has_reason CHECK (btrim(reason) <> ''),
  ADD CONSTRAINT soldier_merge_undone_with_reason CHECK ((undone_at IS NULL) = (undo_reason IS NULL));
CREATE UNIQUE INDEX soldier_merge_once ON soldier_merge (away_id) WHERE undone_at IS NULL;
