-- Ceremonies with report times, time around them that is duty still, rehearsals, height bands and alternates; changed
-- with a version, called off with a reason.

ALTER TABLE "soldier" ADD COLUMN "height_cm" SMALLINT;
ALTER TABLE soldier ADD CONSTRAINT soldier_height CHECK (height_cm BETWEEN 100 AND 250);

ALTER TABLE "ceremony" ADD COLUMN "reports_at" TIMESTAMPTZ(3),
ADD COLUMN "minutes_before" SMALLINT NOT NULL DEFAULT 0,
ADD COLUMN "minutes_after" SMALLINT NOT NULL DEFAULT 0,
ADD COLUMN "notes" TEXT NOT NULL DEFAULT '',
ADD COLUMN "version" INTEGER NOT NULL DEFAULT 1,
ADD COLUMN "cancelled_at" TIMESTAMPTZ(3),
ADD COLUMN "cancel_reason" TEXT;
UPDATE ceremony SET reports_at = starts_at;
ALTER TABLE "ceremony" ALTER COLUMN "reports_at" SET NOT NULL;
ALTER TABLE ceremony
  ADD CONSTRAINT ceremony_reports_first CHECK (reports_at <= starts_at),
  ADD CONSTRAINT ceremony_minutes_around CHECK (minutes_before BETWEEN 0 AND 1440 AND minutes_after BETWEEN 0 AND 1440),
  ADD CONSTRAINT ceremony_cancelled_with_reason CHECK ((cancelled_at IS NULL) = (cancel_reason IS NULL));

CREATE TABLE "rehearsal" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "ceremony_id" UUID NOT NULL,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "day" DATE NOT NULL,
    "place" TEXT NOT NULL,

    CONSTRAINT "rehearsal_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "rehearsal_ceremony_id_idx" ON "rehearsal"("ceremony_id");
ALTER TABLE "rehearsal" ADD CONSTRAINT "rehearsal_ceremony_id_fkey" FOREIGN KEY ("ceremony_id") REFERENCES "ceremony"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE rehearsal ADD CONSTRAINT rehearsal_in_order CHECK (starts_at < ends_at);

ALTER TABLE "post" ADD COLUMN "min_height_cm" SMALLINT, ADD COLUMN "max_height_cm" SMALLINT;
ALTER TABLE post ADD CONSTRAINT post_height_band CHECK (min_height_cm <= max_height_cm);
CREATE INDEX "post_soldier_id_idx" ON "post"("soldier_id");

CREATE TABLE "alternate" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "ceremony_id" UUID NOT NULL,
    "position" SMALLINT NOT NULL,
    "soldier_id" UUID NOT NULL,

    CONSTRAINT "alternate_pkey" PRIMARY KEY ("id")
);

CREATE UNIQUE INDEX "alternate_ceremony_id_soldier_id_key" ON "alternate"("ceremony_id", "soldier_id");
CREATE INDEX "alternate_soldier_id_idx" ON "alternate"("soldier_id");
ALTER TABLE "alternate" ADD CONSTRAINT "alternate_ceremony_id_fkey" FOREIGN KEY ("ceremony_id") REFERENCES "ceremony"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "alternate" ADD CONSTRAINT "alternate_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

CREATE TABLE "alternate_post" (
    "alternate_id" UUID NOT NULL,
    "post_id" UUID NOT NULL,

    CONSTRAINT "alternate_post_pkey" PRIMARY KEY ("alternate_id","post_id")
);

CREATE INDEX "alternate_post_post_id_idx" ON "alternate_post"("post_id");
ALTER TABLE "alternate_post" ADD CONSTRAINT "alternate_post_alternate_id_fkey" FOREIGN KEY ("alternate_id") REFERENCES "alternate"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "alternate_post" ADD CONSTRAINT "alternate_post_post_id_fkey" FOREIGN KEY ("post_id") REFERENCES "post"("id") ON DELETE CASCADE ON UPDATE CASCADE;
