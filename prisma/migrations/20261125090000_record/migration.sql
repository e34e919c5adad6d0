-- CreateTable
CREATE TABLE "catalogue" (
    "id" SMALLINT NOT NULL DEFAULT 1,
    "revision" BIGINT NOT NULL DEFAULT 0,

    CONSTRAINT "catalogue_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "standard" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "code" TEXT NOT NULL,

    CONSTRAINT "standard_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "standard_version" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "standard_id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "effective_from" DATE NOT NULL,
    "equivalent_to_previous" BOOLEAN NOT NULL,
    "published_at" TIMESTAMPTZ(3),
    "definition" JSONB NOT NULL,

    CONSTRAINT "standard_version_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "certification" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "code" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "arms" TEXT[],

    CONSTRAINT "certification_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "certification_standard" (
    "certification_id" UUID NOT NULL,
    "position" SMALLINT NOT NULL,
    "standard_id" UUID NOT NULL,

    CONSTRAINT "certification_standard_pkey" PRIMARY KEY ("certification_id","position")
);

-- CreateTable
CREATE TABLE "certification_terms" (
    "certification_id" UUID NOT NULL,
    "effective_from" DATE NOT NULL,
    "sequence" TEXT NOT NULL,
    "window_days" INTEGER NOT NULL,
    "validity_months" INTEGER NOT NULL,
    "wait_days" INTEGER NOT NULL,
    "due_days" INTEGER NOT NULL,
    "review_after" INTEGER NOT NULL,
    "required_grades" JSONB,
    "required_units" JSONB,

    CONSTRAINT "certification_terms_pkey" PRIMARY KEY ("certification_id","effective_from")
);

-- CreateTable
CREATE TABLE "unit" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "parent_id" UUID,
    "time_zone" TEXT,
    "lineage" UUID[],

    CONSTRAINT "unit_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "soldier" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "roster_number" TEXT NOT NULL,
    "family_name" TEXT NOT NULL,
    "given_name" TEXT NOT NULL,

    CONSTRAINT "soldier_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "soldier_change" (
    "id" BIGSERIAL NOT NULL,
    "soldier_id" UUID NOT NULL,
    "from_day" DATE NOT NULL,
    "grade" TEXT,
    "arms" JSONB,
    "unit_id" UUID,
    "left" TEXT,

    CONSTRAINT "soldier_change_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "soldier_period" (
    "soldier_id" UUID NOT NULL,
    "from_day" DATE NOT NULL,
    "through_day" DATE,
    "unit_id" UUID NOT NULL,
    "grade" TEXT NOT NULL,
    "arms" TEXT[],

    CONSTRAINT "soldier_period_pkey" PRIMARY KEY ("soldier_id","from_day")
);

-- CreateTable
CREATE TABLE "sponsorship" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "candidate_id" UUID NOT NULL,
    "sponsor_id" UUID NOT NULL,
    "from_day" DATE NOT NULL,
    "to_day" DATE,

    CONSTRAINT "sponsorship_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "appointment" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "soldier_id" UUID NOT NULL,
    "standard" TEXT NOT NULL,
    "from_day" DATE NOT NULL,
    "to_day" DATE,

    CONSTRAINT "appointment_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "review" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "soldier_id" UUID NOT NULL,
    "standard" TEXT NOT NULL,
    "on_day" DATE NOT NULL,
    "note" TEXT NOT NULL,

    CONSTRAINT "review_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "withdrawal" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "soldier_id" UUID NOT NULL,
    "certification_id" UUID NOT NULL,
    "on_day" DATE NOT NULL,
    "reason" TEXT NOT NULL,

    CONSTRAINT "withdrawal_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "carried_award" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "soldier_id" UUID NOT NULL,
    "certification_id" UUID NOT NULL,
    "awarded_on" DATE NOT NULL,
    "valid_through" DATE NOT NULL,
    "evidence" TEXT NOT NULL,
    "entry" BIGSERIAL NOT NULL,

    CONSTRAINT "carried_award_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "suspension" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "soldier_id" UUID NOT NULL,
    "certification_id" UUID NOT NULL,
    "from_day" DATE NOT NULL,
    "reason" TEXT NOT NULL,
    "lift_day" DATE,
    "lift_reason" TEXT,

    CONSTRAINT "suspension_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "sheet" (
    "id" UUID NOT NULL,
    "candidate_id" UUID NOT NULL,
    "sponsor_id" UUID,
    "grader_id" UUID NOT NULL,
    "standard_id" UUID NOT NULL,
    "standard_version_id" UUID NOT NULL,
    "purpose" TEXT NOT NULL,
    "arm" TEXT,
    "second_of" UUID,
    "test_day_id" UUID,
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "finished_at" TIMESTAMPTZ(3) NOT NULL,
    "day" DATE NOT NULL,
    "ending" TEXT NOT NULL,
    "outcome" TEXT NOT NULL,
    "conditions_met" BOOLEAN NOT NULL,
    "void_after_failure" BOOLEAN NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL,
    "clock_skew_ms" BIGINT,
    "revised_at" TIMESTAMPTZ(3) NOT NULL,
    "revision" INTEGER NOT NULL,
    "state" TEXT NOT NULL,
    "violations" JSONB NOT NULL,
    "waived" TEXT[],
    "tolerated" TEXT[],
    "is_overlapping" BOOLEAN NOT NULL,
    "attempts" JSONB NOT NULL,
    "tallied_unit_id" UUID,
    "tallied_kind" TEXT,

    CONSTRAINT "sheet_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "sheet_revision" (
    "sheet_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID,
    "reason" TEXT,
    "body" JSONB NOT NULL,
    "score" JSONB NOT NULL,

    CONSTRAINT "sheet_revision_pkey" PRIMARY KEY ("sheet_id","number")
);

-- CreateTable
CREATE TABLE "sheet_decision" (
    "id" BIGSERIAL NOT NULL,
    "sheet_id" UUID NOT NULL,
    "revision" INTEGER NOT NULL,
    "decision" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "waived" TEXT[],
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID,

    CONSTRAINT "sheet_decision_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "earned_award" (
    "soldier_id" UUID NOT NULL,
    "certification_id" UUID NOT NULL,
    "sheet_id" UUID NOT NULL,
    "awarded_on" DATE NOT NULL,
    "valid_through" DATE NOT NULL,
    "finished_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "earned_award_pkey" PRIMARY KEY ("soldier_id","certification_id","sheet_id")
);

-- CreateTable
CREATE TABLE "standing" (
    "soldier_id" UUID NOT NULL,
    "certification_id" UUID NOT NULL,
    "from_day" DATE NOT NULL,
    "through_day" DATE,
    "status" TEXT NOT NULL,
    "awarded_on" DATE,
    "valid_through" DATE,
    "suspended" BOOLEAN NOT NULL,
    "toward" JSONB NOT NULL,
    "retest_open" TEXT[],

    CONSTRAINT "standing_pkey" PRIMARY KEY ("soldier_id","certification_id","from_day")
);

-- CreateTable
CREATE TABLE "retest_span" (
    "soldier_id" UUID NOT NULL,
    "certification_id" UUID NOT NULL,
    "standard" TEXT NOT NULL,
    "from_day" DATE NOT NULL,
    "through_day" DATE,
    "attempt" INTEGER NOT NULL,
    "on_day" DATE NOT NULL,
    "earliest" DATE NOT NULL,
    "due" DATE NOT NULL,
    "no_gos_in_a_row" INTEGER NOT NULL,
    "needs_review" BOOLEAN NOT NULL,

    CONSTRAINT "retest_span_pkey" PRIMARY KEY ("soldier_id","certification_id","standard","from_day")
);

-- CreateTable
CREATE TABLE "tally" (
    "id" BIGSERIAL NOT NULL,
    "standard_id" UUID NOT NULL,
    "unit_id" UUID NOT NULL,
    "grain" TEXT NOT NULL,
    "start" DATE NOT NULL,
    "arm" TEXT NOT NULL,
    "kind" TEXT NOT NULL,

    CONSTRAINT "tally_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "measure_tally" (
    "tally_id" BIGINT NOT NULL,
    "measure" TEXT NOT NULL,
    "major" BOOLEAN NOT NULL,
    "tested" INTEGER NOT NULL,
    "no_go" INTEGER NOT NULL,
    "trials" INTEGER NOT NULL,
    "incorrect" INTEGER NOT NULL,

    CONSTRAINT "measure_tally_pkey" PRIMARY KEY ("tally_id","measure","major")
);

-- CreateTable
CREATE TABLE "fault_tally" (
    "tally_id" BIGINT NOT NULL,
    "measure" TEXT NOT NULL,
    "major" BOOLEAN NOT NULL,
    "fault" TEXT NOT NULL,
    "count" INTEGER NOT NULL,

    CONSTRAINT "fault_tally_pkey" PRIMARY KEY ("tally_id","measure","major","fault")
);

-- CreateTable
CREATE TABLE "sponsor_tally" (
    "tally_id" BIGINT NOT NULL,
    "sponsor_id" UUID NOT NULL,
    "attempts" INTEGER NOT NULL,
    "passes" INTEGER NOT NULL,

    CONSTRAINT "sponsor_tally_pkey" PRIMARY KEY ("tally_id","sponsor_id")
);

-- CreateTable
CREATE TABLE "test_day" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "on_day" DATE NOT NULL,
    "unit_id" UUID NOT NULL,
    "place" TEXT NOT NULL,

    CONSTRAINT "test_day_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ceremony" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "title" TEXT NOT NULL,
    "place" TEXT NOT NULL,
    "unit_id" UUID NOT NULL,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "day" DATE NOT NULL,

    CONSTRAINT "ceremony_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "post" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "ceremony_id" UUID NOT NULL,
    "title" TEXT NOT NULL,
    "row" SMALLINT NOT NULL,
    "place" SMALLINT NOT NULL,
    "certification_id" UUID NOT NULL,
    "arm" TEXT,
    "grades" JSONB,
    "soldier_id" UUID,

    CONSTRAINT "post_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "account" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "name" TEXT NOT NULL,
    "password_hash" TEXT NOT NULL,
    "roles" TEXT[],
    "soldier_id" UUID,
    "unit_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "account_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "session" (
    "token_hash" BYTEA NOT NULL,
    "account_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "seen_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "session_pkey" PRIMARY KEY ("token_hash")
);

-- CreateTable
CREATE TABLE "setup_link" (
    "token_hash" BYTEA NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "setup_link_pkey" PRIMARY KEY ("token_hash")
);

-- CreateIndex
CREATE UNIQUE INDEX "standard_code_key" ON "standard"("code");

-- CreateIndex
CREATE UNIQUE INDEX "standard_version_standard_id_version_key" ON "standard_version"("standard_id", "version");

-- CreateIndex
CREATE UNIQUE INDEX "certification_code_key" ON "certification"("code");

-- CreateIndex
CREATE UNIQUE INDEX "certification_standard_certification_id_standard_id_key" ON "certification_standard"("certification_id", "standard_id");

-- CreateIndex
CREATE INDEX "unit_parent_id_idx" ON "unit"("parent_id");

-- CreateIndex
CREATE UNIQUE INDEX "soldier_roster_number_key" ON "soldier"("roster_number");

-- CreateIndex
CREATE INDEX "soldier_family_name_given_name_idx" ON "soldier"("family_name", "given_name");

-- CreateIndex
CREATE INDEX "soldier_change_soldier_id_from_day_id_idx" ON "soldier_change"("soldier_id", "from_day", "id");

-- CreateIndex
CREATE INDEX "sponsorship_candidate_id_idx" ON "sponsorship"("candidate_id");

-- CreateIndex
CREATE INDEX "sponsorship_sponsor_id_idx" ON "sponsorship"("sponsor_id");

-- CreateIndex
CREATE INDEX "appointment_soldier_id_idx" ON "appointment"("soldier_id");

-- CreateIndex
CREATE INDEX "review_soldier_id_idx" ON "review"("soldier_id");

-- CreateIndex
CREATE INDEX "withdrawal_soldier_id_idx" ON "withdrawal"("soldier_id");

-- CreateIndex
CREATE UNIQUE INDEX "carried_award_entry_key" ON "carried_award"("entry");

-- CreateIndex
CREATE INDEX "carried_award_soldier_id_idx" ON "carried_award"("soldier_id");

-- CreateIndex
CREATE INDEX "suspension_soldier_id_idx" ON "suspension"("soldier_id");

-- CreateIndex
CREATE INDEX "sheet_candidate_id_finished_at_id_idx" ON "sheet"("candidate_id", "finished_at", "id");

-- CreateIndex
CREATE INDEX "sheet_sponsor_id_idx" ON "sheet"("sponsor_id");

-- CreateIndex
CREATE INDEX "sheet_grader_id_idx" ON "sheet"("grader_id");

-- CreateIndex
CREATE INDEX "sheet_test_day_id_idx" ON "sheet"("test_day_id");

-- CreateIndex
CREATE INDEX "sheet_decision_sheet_id_idx" ON "sheet_decision"("sheet_id");

-- CreateIndex
CREATE UNIQUE INDEX "tally_unit_id_standard_id_grain_start_arm_kind_key" ON "tally"("unit_id", "standard_id", "grain", "start", "arm", "kind");

-- CreateIndex
CREATE INDEX "test_day_on_day_idx" ON "test_day"("on_day");

-- CreateIndex
CREATE INDEX "ceremony_day_idx" ON "ceremony"("day");

-- CreateIndex
CREATE UNIQUE INDEX "post_ceremony_id_row_place_key" ON "post"("ceremony_id", "row", "place");

-- CreateIndex
CREATE UNIQUE INDEX "account_soldier_id_key" ON "account"("soldier_id");

-- CreateIndex
CREATE INDEX "session_account_id_idx" ON "session"("account_id");

-- AddForeignKey
ALTER TABLE "standard_version" ADD CONSTRAINT "standard_version_standard_id_fkey" FOREIGN KEY ("standard_id") REFERENCES "standard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "certification_standard" ADD CONSTRAINT "certification_standard_certification_id_fkey" FOREIGN KEY ("certification_id") REFERENCES "certification"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "certification_standard" ADD CONSTRAINT "certification_standard_standard_id_fkey" FOREIGN KEY ("standard_id") REFERENCES "standard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "certification_terms" ADD CONSTRAINT "certification_terms_certification_id_fkey" FOREIGN KEY ("certification_id") REFERENCES "certification"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "unit" ADD CONSTRAINT "unit_parent_id_fkey" FOREIGN KEY ("parent_id") REFERENCES "unit"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "soldier_change" ADD CONSTRAINT "soldier_change_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "soldier_change" ADD CONSTRAINT "soldier_change_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "soldier_period" ADD CONSTRAINT "soldier_period_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "soldier_period" ADD CONSTRAINT "soldier_period_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sponsorship" ADD CONSTRAINT "sponsorship_candidate_id_fkey" FOREIGN KEY ("candidate_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sponsorship" ADD CONSTRAINT "sponsorship_sponsor_id_fkey" FOREIGN KEY ("sponsor_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "appointment" ADD CONSTRAINT "appointment_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "review" ADD CONSTRAINT "review_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "withdrawal" ADD CONSTRAINT "withdrawal_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "withdrawal" ADD CONSTRAINT "withdrawal_certification_id_fkey" FOREIGN KEY ("certification_id") REFERENCES "certification"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "carried_award" ADD CONSTRAINT "carried_award_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "carried_award" ADD CONSTRAINT "carried_award_certification_id_fkey" FOREIGN KEY ("certification_id") REFERENCES "certification"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "suspension" ADD CONSTRAINT "suspension_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "suspension" ADD CONSTRAINT "suspension_certification_id_fkey" FOREIGN KEY ("certification_id") REFERENCES "certification"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sheet" ADD CONSTRAINT "sheet_candidate_id_fkey" FOREIGN KEY ("candidate_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sheet" ADD CONSTRAINT "sheet_sponsor_id_fkey" FOREIGN KEY ("sponsor_id") REFERENCES "soldier"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sheet" ADD CONSTRAINT "sheet_grader_id_fkey" FOREIGN KEY ("grader_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sheet" ADD CONSTRAINT "sheet_standard_id_fkey" FOREIGN KEY ("standard_id") REFERENCES "standard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sheet" ADD CONSTRAINT "sheet_standard_version_id_fkey" FOREIGN KEY ("standard_version_id") REFERENCES "standard_version"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sheet" ADD CONSTRAINT "sheet_test_day_id_fkey" FOREIGN KEY ("test_day_id") REFERENCES "test_day"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sheet_revision" ADD CONSTRAINT "sheet_revision_sheet_id_fkey" FOREIGN KEY ("sheet_id") REFERENCES "sheet"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sheet_revision" ADD CONSTRAINT "sheet_revision_by_id_fkey" FOREIGN KEY ("by_id") REFERENCES "account"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sheet_decision" ADD CONSTRAINT "sheet_decision_sheet_id_fkey" FOREIGN KEY ("sheet_id") REFERENCES "sheet"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sheet_decision" ADD CONSTRAINT "sheet_decision_by_id_fkey" FOREIGN KEY ("by_id") REFERENCES "account"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "earned_award" ADD CONSTRAINT "earned_award_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "earned_award" ADD CONSTRAINT "earned_award_certification_id_fkey" FOREIGN KEY ("certification_id") REFERENCES "certification"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "earned_award" ADD CONSTRAINT "earned_award_sheet_id_fkey" FOREIGN KEY ("sheet_id") REFERENCES "sheet"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "standing" ADD CONSTRAINT "standing_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "standing" ADD CONSTRAINT "standing_certification_id_fkey" FOREIGN KEY ("certification_id") REFERENCES "certification"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retest_span" ADD CONSTRAINT "retest_span_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retest_span" ADD CONSTRAINT "retest_span_certification_id_fkey" FOREIGN KEY ("certification_id") REFERENCES "certification"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "tally" ADD CONSTRAINT "tally_standard_id_fkey" FOREIGN KEY ("standard_id") REFERENCES "standard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "measure_tally" ADD CONSTRAINT "measure_tally_tally_id_fkey" FOREIGN KEY ("tally_id") REFERENCES "tally"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "fault_tally" ADD CONSTRAINT "fault_tally_tally_id_fkey" FOREIGN KEY ("tally_id") REFERENCES "tally"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sponsor_tally" ADD CONSTRAINT "sponsor_tally_tally_id_fkey" FOREIGN KEY ("tally_id") REFERENCES "tally"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sponsor_tally" ADD CONSTRAINT "sponsor_tally_sponsor_id_fkey" FOREIGN KEY ("sponsor_id") REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "test_day" ADD CONSTRAINT "test_day_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ceremony" ADD CONSTRAINT "ceremony_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "post" ADD CONSTRAINT "post_ceremony_id_fkey" FOREIGN KEY ("ceremony_id") REFERENCES "ceremony"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "post" ADD CONSTRAINT "post_certification_id_fkey" FOREIGN KEY ("certification_id") REFERENCES "certification"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "post" ADD CONSTRAINT "post_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "account" ADD CONSTRAINT "account_soldier_id_fkey" FOREIGN KEY ("soldier_id") REFERENCES "soldier"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "account" ADD CONSTRAINT "account_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "session" ADD CONSTRAINT "session_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;
