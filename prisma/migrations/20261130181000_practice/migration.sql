-- Practice of chosen measures: no grade sheet, part of no test and of no figure.
CREATE TABLE "practice" (
    "id" UUID NOT NULL,
    "candidate_id" UUID NOT NULL,
    "standard" TEXT NOT NULL,
    "arm" TEXT,
    "on_day" DATE NOT NULL,
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "finished_at" TIMESTAMPTZ(3) NOT NULL,
    "measures" JSONB NOT NULL,
    "by_id" UUID NOT NULL,
    "stored_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "practice_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "practice_candidate_id_finished_at_id_idx" ON "practice"("candidate_id", "finished_at", "id");
CREATE INDEX "practice_by_id_idx" ON "practice"("by_id");
ALTER TABLE "practice" ADD CONSTRAINT "practice_candidate_id_fkey" FOREIGN KEY ("candidate_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "practice" ADD CONSTRAINT "practice_by_id_fkey" FOREIGN KEY ("by_id") REFERENCES "account"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE practice ADD CONSTRAINT practice_ends_after_it_began CHECK (started_at <= finished_at);
ALTER TABLE practice ADD CONSTRAINT practice_of_something CHECK (jsonb_typeof(measures) = 'array' AND jsonb_array_length(measures) > 0);
