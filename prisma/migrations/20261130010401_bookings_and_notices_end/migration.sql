-- Bookings that a GO made pointless end by themselves; word of it; word to leaders that a test day was called off.

ALTER TABLE "booking" ADD COLUMN "ended_by_id" UUID;
CREATE INDEX "booking_ended_by_id_idx" ON "booking"("ended_by_id");
ALTER TABLE "booking" ADD CONSTRAINT "booking_ended_by_id_fkey" FOREIGN KEY ("ended_by_id") REFERENCES "sheet"("id") ON DELETE SET NULL ON UPDATE CASCADE;

ALTER TABLE "notice" ADD COLUMN "to_leaders" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE notice ADD CONSTRAINT notice_to_one CHECK (NOT (to_leaders AND to_id IS NOT NULL));
