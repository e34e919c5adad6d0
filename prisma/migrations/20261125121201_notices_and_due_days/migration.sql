-- Due days of retests that the office moved; notices to those concerned.

CREATE TABLE "due_move" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "soldier_id" UUID NOT NULL,
    "certification_id" UUID NOT NULL,
    "standard" TEXT NOT NULL,
    "on_day" DATE NOT NULL,
    "due" DATE NOT NULL,
    "reason" TEXT NOT NULL,
    "moved_at" TIMESTAMPTZ(3) NOT NULL,
    "moved_by_id" UUID,
    "entry" BIGSERIAL NOT NULL,

    CONSTRAINT "due_move_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "due_move_soldier_id_certification_id_standard_on_day_entry_idx" ON "due_move"("soldier_id", "certification_id", "standard", "on_day", "entry");
ALTER TABLE "due_move" ADD CONSTRAINT "due_move_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "due_move" ADD CONSTRAINT "due_move_certification_id_fkey" FOREIGN KEY ("certification_id") REFERENCES "certification"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "due_move" ADD CONSTRAINT "due_move_moved_by_id_fkey" FOREIGN KEY ("moved_by_id") REFERENCES "account"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE due_move
  ADD CONSTRAINT due_move_after_the_test CHECK (on_day < due),
  ADD CONSTRAINT due_move_with_reason CHECK (btrim(reason) <> '');

CREATE TABLE "notice" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "at" TIMESTAMPTZ(3) NOT NULL,
    "kind" TEXT NOT NULL,
    "to_id" UUID,
    "about_id" UUID,
    "test_day_id" UUID,
    "sheet_id" UUID,
    "standard" TEXT,
    "day" DATE,
    "starts_at" TIMESTAMPTZ(3),

    CONSTRAINT "notice_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "notice_to_id_at_idx" ON "notice"("to_id", "at");
CREATE INDEX "notice_about_id_idx" ON "notice"("about_id");
ALTER TABLE "notice" ADD CONSTRAINT "notice_to_id_fkey" FOREIGN KEY ("to_id") REFERENCES "soldier"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "notice" ADD CONSTRAINT "notice_about_id_fkey" FOREIGN KEY ("about_id") REFERENCES "soldier"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "notice" ADD CONSTRAINT "notice_test_day_id_fkey" FOREIGN KEY ("test_day_id") REFERENCES "test_day"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "notice" ADD CONSTRAINT "notice_sheet_id_fkey" FOREIGN KEY ("sheet_id") REFERENCES "sheet"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE notice ADD CONSTRAINT notice_kind CHECK (kind IN ('booked', 'moved', 'cancelled', 'day called off',
  'sheet held', 'sheet counted', 'sheet rejected', 'appealed', 'appeal upheld', 'appeal denied', 'due day moved',
  'sponsor ended'));

CREATE TABLE "notice_read" (
    "notice_id" UUID NOT NULL,
    "account_id" UUID NOT NULL,

    CONSTRAINT "notice_read_pkey" PRIMARY KEY ("notice_id","account_id")
);

CREATE INDEX "notice_read_account_id_idx" ON "notice_read"("account_id");
ALTER TABLE "notice_read" ADD CONSTRAINT "notice_read_notice_id_fkey" FOREIGN KEY ("notice_id") REFERENCES "notice"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "notice_read" ADD CONSTRAINT "notice_read_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;
