-- Mail: the address and the choices of an account, and the queue. What a mail says is in none of them: it is written when it is sent.

CREATE TABLE "mail_address" (
    "account_id" UUID NOT NULL,
    "address" TEXT NOT NULL,
    "set_at" TIMESTAMPTZ(3) NOT NULL,
    "confirmed_at" TIMESTAMPTZ(3),
    "refused_at" TIMESTAMPTZ(3),
    "told_lapses_through" DATE,

    CONSTRAINT "mail_address_pkey" PRIMARY KEY ("account_id"),
    CONSTRAINT "mail_address_is_one" CHECK ("address" ~ '^[!-~]+@[!-~]+$' AND length("address") <= 254)
);

CREATE TABLE "mail_code" (
    "account_id" UUID NOT NULL,
    "code_hash" BYTEA NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "tries" SMALLINT NOT NULL DEFAULT 0,

    CONSTRAINT "mail_code_pkey" PRIMARY KEY ("account_id")
);

CREATE TABLE "mail_choice" (
    "account_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "timing" TEXT NOT NULL,

    CONSTRAINT "mail_choice_pkey" PRIMARY KEY ("account_id","kind"),
    CONSTRAINT "mail_choice_timing" CHECK ("timing" IN ('at once', 'daily', 'weekly', 'never'))
);

CREATE TABLE "mail" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "account_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "for_day" DATE,
    "to_address" TEXT,
    "queued_at" TIMESTAMPTZ(3) NOT NULL,
    "due_at" TIMESTAMPTZ(3) NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'waiting',
    "attempts" SMALLINT NOT NULL DEFAULT 0,
    "claim" UUID,
    "claimed_until" TIMESTAMPTZ(3),
    "tried_at" TIMESTAMPTZ(3),
    "problem" TEXT,
    "done_at" TIMESTAMPTZ(3),

    CONSTRAINT "mail_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "mail_kind" CHECK ("kind" IN ('news', 'daily', 'weekly', 'code', 'address changed', 'test')),
    CONSTRAINT "mail_state" CHECK ("state" IN ('waiting', 'sent', 'empty', 'failed', 'dropped')),
    CONSTRAINT "mail_waits_or_is_done" CHECK (("state" = 'waiting') = ("done_at" IS NULL)),
    CONSTRAINT "mail_of_a_day" CHECK (("kind" IN ('daily', 'weekly')) = ("for_day" IS NOT NULL))
);

-- One daily and one weekly mail a day and account, whichever server process queues it.
CREATE UNIQUE INDEX "mail_account_id_kind_for_day_key" ON "mail"("account_id", "kind", "for_day");
CREATE INDEX "mail_state_due_at_idx" ON "mail"("state", "due_at");

CREATE TABLE "mail_notice" (
    "notice_id" UUID NOT NULL,
    "account_id" UUID NOT NULL,
    "mail_id" UUID,

    CONSTRAINT "mail_notice_pkey" PRIMARY KEY ("notice_id","account_id")
);

CREATE INDEX "mail_notice_mail_id_idx" ON "mail_notice"("mail_id");
CREATE INDEX "mail_notice_account_id_idx" ON "mail_notice"("account_id");
CREATE INDEX "notice_at_idx" ON "notice"("at");

ALTER TABLE "mail_address" ADD CONSTRAINT "mail_address_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "mail_code" ADD CONSTRAINT "mail_code_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "mail_choice" ADD CONSTRAINT "mail_choice_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "mail" ADD CONSTRAINT "mail_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "mail_notice" ADD CONSTRAINT "mail_notice_notice_id_fkey" FOREIGN KEY ("notice_id") REFERENCES "notice"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "mail_notice" ADD CONSTRAINT "mail_notice_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "mail_notice" ADD CONSTRAINT "mail_notice_mail_id_fkey" FOREIGN KEY ("mail_id") REFERENCES "mail"("id") ON DELETE CASCADE ON UPDATE CASCADE;
