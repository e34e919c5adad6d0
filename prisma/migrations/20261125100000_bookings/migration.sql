-- A candidate is to be tested on a test day by a grader.

CREATE TABLE "booking" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "test_day_id" UUID NOT NULL,
    "candidate_id" UUID NOT NULL,
    "standard_id" UUID NOT NULL,
    "grader_id" UUID,
    "starts_at" TIMESTAMPTZ(3),

    CONSTRAINT "booking_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "booking_candidate_id_idx" ON "booking"("candidate_id");
CREATE INDEX "booking_grader_id_idx" ON "booking"("grader_id");
CREATE UNIQUE INDEX "booking_test_day_id_candidate_id_standard_id_key" ON "booking"("test_day_id", "candidate_id", "standard_id");

ALTER TABLE "booking" ADD CONSTRAINT "booking_test_day_id_fkey" FOREIGN KEY ("test_day_id") REFERENCES "test_day"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "booking" ADD CONSTRAINT "booking_candidate_id_fkey" FOREIGN KEY ("candidate_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "booking" ADD CONSTRAINT "booking_standard_id_fkey" FOREIGN KEY ("standard_id") REFERENCES "standard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "booking" ADD CONSTRAINT "booking_grader_id_fkey" FOREIGN KEY ("grader_id") REFERENCES "soldier"("id") ON DELETE SET NULL ON UPDATE CASCADE;

ALTER TABLE "booking" ADD CONSTRAINT "booking_by_another" CHECK (grader_id <> candidate_id);
