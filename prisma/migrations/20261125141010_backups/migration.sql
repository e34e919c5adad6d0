-- What became of each backup that a server began, so that the last failure is known after a restart.
CREATE TABLE "backup_run" (
  "id" UUID NOT NULL DEFAULT gen_random_uuid(),
  "begun_at" TIMESTAMPTZ(3) NOT NULL,
  "ended_at" TIMESTAMPTZ(3),
  "problem" TEXT,

  CONSTRAINT "backup_run_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "backup_run_problem_ended" CHECK ("problem" IS NULL OR "ended_at" IS NOT NULL)
);

CREATE INDEX "backup_run_begun_at_idx" ON "backup_run"("begun_at");
