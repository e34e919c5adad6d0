CREATE TABLE "sign_on_provider" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "name" TEXT NOT NULL,
    "issuer" TEXT NOT NULL,
    "client_id" TEXT NOT NULL,
    "client_secret" BYTEA,
    "scopes" TEXT NOT NULL,
    "enabled" BOOLEAN NOT NULL,
    "makes_accounts" BOOLEAN NOT NULL,
    "rules_each_time" BOOLEAN NOT NULL,
    "makes_administrators" BOOLEAN NOT NULL,
    "name_claim" TEXT NOT NULL,
    "soldier_claim" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "sign_on_provider_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "sign_on_provider_named" CHECK (btrim("name") <> ''),
    CONSTRAINT "sign_on_provider_by_web" CHECK ("issuer" ~ '^https?://')
);

CREATE UNIQUE INDEX "sign_on_provider_name_key" ON "sign_on_provider"(lower("name"));
CREATE UNIQUE INDEX "sign_on_provider_issuer_key" ON "sign_on_provider"("issuer");

CREATE TABLE "claim_rule" (
    "provider_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "claim" TEXT NOT NULL,
    "test" TEXT NOT NULL,
    "value" TEXT NOT NULL,
    "role" TEXT NOT NULL,
    "unit_id" UUID,

    CONSTRAINT "claim_rule_pkey" PRIMARY KEY ("provider_id", "position"),
    CONSTRAINT "claim_rule_test" CHECK ("test" IN ('is', 'contains')),
    CONSTRAINT "claim_rule_unit_where_led" CHECK (("unit_id" IS NOT NULL) = ("role" IN ('leader', 'commander')))
);

CREATE INDEX "claim_rule_unit_id_idx" ON "claim_rule"("unit_id");

ALTER TABLE "claim_rule" ADD CONSTRAINT "claim_rule_provider_id_fkey" FOREIGN KEY ("provider_id") REFERENCES "sign_on_provider"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "claim_rule" ADD CONSTRAINT "claim_rule_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

CREATE TABLE "identity" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "provider_id" UUID NOT NULL,
    "subject" TEXT NOT NULL,
    "account_id" UUID NOT NULL,
    "follows_rules" BOOLEAN NOT NULL,
    "linked_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "identity_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "identity_of_somebody" CHECK ("subject" <> '')
);

CREATE UNIQUE INDEX "identity_provider_id_subject_key" ON "identity"("provider_id", "subject");
CREATE UNIQUE INDEX "identity_account_id_provider_id_key" ON "identity"("account_id", "provider_id");

ALTER TABLE "identity" ADD CONSTRAINT "identity_provider_id_fkey" FOREIGN KEY ("provider_id") REFERENCES "sign_on_provider"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "identity" ADD CONSTRAINT "identity_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

CREATE TABLE "sign_on_attempt" (
    "token_hash" BYTEA NOT NULL,
    "provider_id" UUID NOT NULL,
    "state" TEXT NOT NULL,
    "nonce" TEXT NOT NULL,
    "verifier" TEXT NOT NULL,
    "return_path" TEXT NOT NULL,
    "session_hash" BYTEA,
    "links_account_id" UUID,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "sign_on_attempt_pkey" PRIMARY KEY ("token_hash"),
    CONSTRAINT "sign_on_attempt_link_has_session" CHECK ("links_account_id" IS NULL OR "session_hash" IS NOT NULL)
);

CREATE INDEX "sign_on_attempt_expires_at_idx" ON "sign_on_attempt"("expires_at");
CREATE INDEX "sign_on_attempt_provider_id_idx" ON "sign_on_attempt"("provider_id");
CREATE INDEX "sign_on_attempt_links_account_id_idx" ON "sign_on_attempt"("links_account_id");

ALTER TABLE "sign_on_attempt" ADD CONSTRAINT "sign_on_attempt_provider_id_fkey" FOREIGN KEY ("provider_id") REFERENCES "sign_on_provider"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "sign_on_attempt" ADD CONSTRAINT "sign_on_attempt_links_account_id_fkey" FOREIGN KEY ("links_account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

CREATE TABLE "sign_on_session" (
    "token_hash" BYTEA NOT NULL,
    "identity_id" UUID NOT NULL,
    "provider_sid" TEXT,
    "id_token" BYTEA NOT NULL,

    CONSTRAINT "sign_on_session_pkey" PRIMARY KEY ("token_hash")
);

CREATE INDEX "sign_on_session_identity_id_idx" ON "sign_on_session"("identity_id");

ALTER TABLE "sign_on_session" ADD CONSTRAINT "sign_on_session_token_hash_fkey" FOREIGN KEY ("token_hash") REFERENCES "session"("token_hash") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "sign_on_session" ADD CONSTRAINT "sign_on_session_identity_id_fkey" FOREIGN KEY ("identity_id") REFERENCES "identity"("id") ON DELETE CASCADE ON UPDATE CASCADE;

CREATE TABLE "logout_token" (
    "provider_id" UUID NOT NULL,
    "token_id" TEXT NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "logout_token_pkey" PRIMARY KEY ("provider_id", "token_id")
);

CREATE INDEX "logout_token_expires_at_idx" ON "logout_token"("expires_at");

ALTER TABLE "logout_token" ADD CONSTRAINT "logout_token_provider_id_fkey" FOREIGN KEY ("provider_id") REFERENCES "sign_on_provider"("id") ON DELETE CASCADE ON UPDATE CASCADE;

CREATE TABLE "sign_on_page" (
    "id" SMALLINT NOT NULL,
    "folds_passwords" BOOLEAN NOT NULL,

    CONSTRAINT "sign_on_page_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "sign_on_page_one" CHECK ("id" = 1)
);

INSERT INTO "sign_on_page" ("id", "folds_passwords") VALUES (1, false);
