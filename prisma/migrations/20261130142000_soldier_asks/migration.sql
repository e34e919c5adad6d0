-- Other units are asked for a soldier for a post; their leader answers, and both are told.
CREATE TABLE "soldier_ask" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "ceremony_id" UUID NOT NULL,
    "post_id" UUID NOT NULL,
    "unit_id" UUID NOT NULL,
    "asked_by_id" UUID NOT NULL,
    "asked_at" TIMESTAMPTZ(3) NOT NULL,
    "answer" TEXT CHECK ("answer" IN ('yes', 'no', 'taken back')),
    "answered_by_id" UUID,
    "answered_at" TIMESTAMPTZ(3),
    "word" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "soldier_ask_pkey" PRIMARY KEY ("id"),
    CHECK (("answer" IS NULL) = ("answered_at" IS NULL) AND ("answer" IS NULL) = ("answered_by_id" IS NULL))
);
CREATE INDEX "soldier_ask_ceremony_id_idx" ON "soldier_ask"("ceremony_id");
CREATE INDEX "soldier_ask_post_id_idx" ON "soldier_ask"("post_id");
CREATE INDEX "soldier_ask_unit_id_idx" ON "soldier_ask"("unit_id");
CREATE INDEX "soldier_ask_asked_by_id_idx" ON "soldier_ask"("asked_by_id");
CREATE INDEX "soldier_ask_answered_by_id_idx" ON "soldier_ask"("answered_by_id");
ALTER TABLE "soldier_ask" ADD CONSTRAINT "soldier_ask_ceremony_id_fkey"
    FOREIGN KEY ("ceremony_id") REFERENCES "ceremony"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "soldier_ask" ADD CONSTRAINT "soldier_ask_post_id_fkey"
    FOREIGN KEY ("post_id") REFERENCES "post"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "soldier_ask" ADD CONSTRAINT "soldier_ask_unit_id_fkey"
    FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "soldier_ask" ADD CONSTRAINT "soldier_ask_asked_by_id_fkey"
    FOREIGN KEY ("asked_by_id") REFERENCES "account"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "soldier_ask" ADD CONSTRAINT "soldier_ask_answered_by_id_fkey"
    FOREIGN KEY ("answered_by_id") REFERENCES "account"("id") ON DELETE SET NULL ON UPDATE CASCADE;

ALTER TABLE "notice" ADD COLUMN "ask_id" UUID;
CREATE INDEX "notice_ask_id_idx" ON "notice"("ask_id");
ALTER TABLE "notice" ADD CONSTRAINT "notice_ask_id_fkey"
    FOREIGN KEY ("ask_id") REFERENCES "soldier_ask"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE notice DROP CONSTRAINT notice_kind;
ALTER TABLE notice ADD CONSTRAINT notice_kind CHECK (kind IN ('booked', 'moved', 'cancelled', 'day called off', 'not needed', 'needed again',
  'sheet entered', 'sheets taken in', 'sheet held', 'sheet counted', 'sheet rejected', 'amendment proposed',
  'amendment refused', 'sheet amended', 'appealed', 'appeal upheld', 'appeal denied', 'due day moved', 'sponsor ended', 'graders differ',
  'sheet arrived late', 'soldier asked for', 'ask answered'));
