-- Absences; test days with slots; what became of a booking.

CREATE TABLE "absence" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "soldier_id" UUID NOT NULL,
    "from_day" DATE NOT NULL,
    "through_day" DATE,
    "kind" TEXT NOT NULL,

    CONSTRAINT "absence_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "absence_soldier_id_idx" ON "absence"("soldier_id");
ALTER TABLE "absence" ADD CONSTRAINT "absence_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE absence
  ADD CONSTRAINT absence_in_order CHECK (from_day <= through_day),
  ADD CONSTRAINT absence_kind CHECK (kind IN ('leave', 'course', 'duty elsewhere', 'not available')),
  ADD CONSTRAINT absence_no_overlap EXCLUDE USING gist (
    soldier_id WITH =, daterange(from_day, through_day, '[]') WITH &&);

ALTER TABLE "test_day" ADD COLUMN "called_off_at" TIMESTAMPTZ(3), ADD COLUMN "call_off_reason" TEXT;
ALTER TABLE test_day
  ADD CONSTRAINT test_day_called_off_with_reason CHECK ((called_off_at IS NULL) = (call_off_reason IS NULL));

CREATE TABLE "slot" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "test_day_id" UUID NOT NULL,
    "grader_id" UUID,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "slot_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "slot_test_day_id_idx" ON "slot"("test_day_id");
CREATE INDEX "slot_grader_id_idx" ON "slot"("grader_id");
ALTER TABLE "slot" ADD CONSTRAINT "slot_test_day_id_fkey" FOREIGN KEY ("test_day_id") REFERENCES "test_day"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "slot" ADD CONSTRAINT "slot_grader_id_fkey" FOREIGN KEY ("grader_id") REFERENCES "soldier"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE slot
  ADD CONSTRAINT slot_in_order CHECK (starts_at < ends_at),
  ADD CONSTRAINT slot_one_at_a_time EXCLUDE USING gist (grader_id WITH =, tstzrange(starts_at, ends_at) WITH &&);

ALTER TABLE "booking" ADD COLUMN "slot_id" UUID,
ADD COLUMN "state" TEXT NOT NULL DEFAULT 'booked',
ADD COLUMN "state_reason" TEXT,
ADD COLUMN "sheet_id" UUID;

DROP INDEX "booking_test_day_id_candidate_id_standard_id_key";
CREATE INDEX "booking_test_day_id_idx" ON "booking"("test_day_id");
CREATE INDEX "booking_sheet_id_idx" ON "booking"("sheet_id");
ALTER TABLE "booking" ADD CONSTRAINT "booking_slot_id_fkey" FOREIGN KEY ("slot_id") REFERENCES "slot"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE "booking" ADD CONSTRAINT "booking_sheet_id_fkey" FOREIGN KEY ("sheet_id") REFERENCES "sheet"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE booking ADD CONSTRAINT booking_state CHECK
  (state IN ('booked', 'checked in', 'tested', 'no-show', 'excused', 'turned away', 'cancelled'));
CREATE UNIQUE INDEX booking_once_a_day ON booking (test_day_id, candidate_id, standard_id) WHERE state <> 'cancelled';
CREATE UNIQUE INDEX booking_one_a_slot ON booking (slot_id) WHERE state <> 'cancelled';
