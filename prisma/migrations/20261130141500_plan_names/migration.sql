-- Soldiers named when a manning plan was accepted, as they were left, so that this can be undone.
CREATE TABLE "plan_name" (
    "plan_id" UUID NOT NULL,
    "pair" TEXT NOT NULL,
    "ceremony_id" UUID NOT NULL,
    "post_id" UUID,
    "soldier_id" UUID NOT NULL,
    "before_id" UUID,
    "accepted_at" TIMESTAMPTZ(3) NOT NULL,
    "undone_at" TIMESTAMPTZ(3),

    CONSTRAINT "plan_name_pkey" PRIMARY KEY ("plan_id", "pair")
);
CREATE INDEX "plan_name_ceremony_id_idx" ON "plan_name"("ceremony_id");
CREATE INDEX "plan_name_post_id_idx" ON "plan_name"("post_id");
CREATE INDEX "plan_name_soldier_id_idx" ON "plan_name"("soldier_id");
CREATE INDEX "plan_name_before_id_idx" ON "plan_name"("before_id");
ALTER TABLE "plan_name" ADD CONSTRAINT "plan_name_plan_id_fkey"
    FOREIGN KEY ("plan_id") REFERENCES "plan"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "plan_name" ADD CONSTRAINT "plan_name_ceremony_id_fkey"
    FOREIGN KEY ("ceremony_id") REFERENCES "ceremony"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "plan_name" ADD CONSTRAINT "plan_name_post_id_fkey"
    FOREIGN KEY ("post_id") REFERENCES "post"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "plan_name" ADD CONSTRAINT "plan_name_soldier_id_fkey"
    FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "plan_name" ADD CONSTRAINT "plan_name_before_id_fkey"
    FOREIGN KEY ("before_id") REFERENCES "soldier"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- Those kept beside the answer until now; who was merged away since is the soldier kept, who is gone is left out.
WITH was AS (
    SELECT p."id" AS plan_id, p."asked_at", n ->> 'pair' AS pair, (n ->> 'ceremonyId')::uuid AS ceremony_id,
        (n ->> 'postId')::uuid AS post_id, (n ->> 'soldierId')::uuid AS soldier_id, (n ->> 'before')::uuid AS before_id
    FROM "plan" p CROSS JOIN LATERAL jsonb_array_elements(COALESCE(p."answer" -> 'named', '[]')) n)
INSERT INTO "plan_name" ("plan_id", "pair", "ceremony_id", "post_id", "soldier_id", "before_id", "accepted_at")
SELECT was.plan_id, was.pair, was.ceremony_id, was.post_id, who."id", earlier."id", was."asked_at" FROM was
JOIN "ceremony" c ON c."id" = was.ceremony_id LEFT JOIN "post" o ON o."id" = was.post_id
JOIN "soldier" who ON who."id" = COALESCE((SELECT m."kept_id" FROM "soldier_merge" m
    WHERE m."away_id" = was.soldier_id AND m."undone_at" IS NULL), was.soldier_id)
LEFT JOIN "soldier" earlier ON earlier."id" = COALESCE((SELECT m."kept_id" FROM "soldier_merge" m
    WHERE m."away_id" = was.before_id AND m."undone_at" IS NULL), was.before_id)
WHERE was.post_id IS NULL OR o."id" IS NOT NULL;
UPDATE "plan" SET "answer" = "answer" - 'named' WHERE "answer" ? 'named';
