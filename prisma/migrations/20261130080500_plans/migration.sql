-- What was asked to be planned, the problem it came to and the answer that was found.
CREATE TABLE "plan" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "kind" TEXT NOT NULL CHECK ("kind" IN ('retests', 'manning')),
    "unit_id" UUID NOT NULL,
    "from_day" DATE NOT NULL,
    "to_day" DATE NOT NULL,
    "options" JSONB NOT NULL,
    "content" TEXT NOT NULL,
    "account_id" UUID NOT NULL,
    "asked_at" TIMESTAMPTZ(3) NOT NULL,
    "state" TEXT NOT NULL CHECK ("state" IN ('waiting', 'solving', 'ready', 'stopped', 'failed')),
    "progress" JSONB,
    "beat_at" TIMESTAMPTZ(3) NOT NULL,
    "stop_asked" BOOLEAN NOT NULL DEFAULT false,
    "failure" TEXT,
    "problem" JSONB,
    "answer" JSONB,
    "levels" JSONB NOT NULL DEFAULT '[]',
    "seconds" DOUBLE PRECISION NOT NULL DEFAULT 0,
    "compared_entry" BIGINT NOT NULL DEFAULT 0,
    "compared_at" TIMESTAMPTZ(3),
    "changed" JSONB NOT NULL DEFAULT '[]',

    CONSTRAINT "plan_pkey" PRIMARY KEY ("id"),
    CHECK ("from_day" <= "to_day"),
    CHECK ("state" NOT IN ('ready', 'stopped') OR ("problem" IS NOT NULL AND "answer" IS NOT NULL))
);
CREATE INDEX "plan_content_asked_at_idx" ON "plan"("content", "asked_at");
CREATE INDEX "plan_unit_id_idx" ON "plan"("unit_id");
CREATE INDEX "plan_account_id_idx" ON "plan"("account_id");
ALTER TABLE "plan" ADD CONSTRAINT "plan_unit_id_fkey"
    FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "plan" ADD CONSTRAINT "plan_account_id_fkey"
    FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Bookings made or moved when a plan was accepted, as they were left, so that this can be undone.
CREATE TABLE "plan_booking" (
    "plan_id" UUID NOT NULL,
    "pair" TEXT NOT NULL,
    "booking_id" UUID NOT NULL,
    "test_day_id" UUID NOT NULL,
    "slot_id" UUID NOT NULL,
    "from_slot_id" UUID,
    "accepted_at" TIMESTAMPTZ(3) NOT NULL,
    "undone_at" TIMESTAMPTZ(3),

    CONSTRAINT "plan_booking_pkey" PRIMARY KEY ("plan_id", "booking_id")
);
CREATE INDEX "plan_booking_booking_id_idx" ON "plan_booking"("booking_id");
ALTER TABLE "plan_booking" ADD CONSTRAINT "plan_booking_plan_id_fkey"
    FOREIGN KEY ("plan_id") REFERENCES "plan"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "plan_booking" ADD CONSTRAINT "plan_booking_booking_id_fkey"
    FOREIGN KEY ("booking_id") REFERENCES "booking"("id") ON DELETE CASCADE ON UPDATE CASCADE;
