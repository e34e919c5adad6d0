-- Second factors: authenticator apps, passkeys and recovery codes; sign-ins halfway; which roles need one.

ALTER TABLE "session"
  ADD COLUMN "confirmed_at" TIMESTAMPTZ(3),
  ADD COLUMN "only_enrols" BOOLEAN NOT NULL DEFAULT false;

CREATE TABLE "authenticator_app" (
  "id" UUID NOT NULL DEFAULT gen_random_uuid(),
  "account_id" UUID NOT NULL,
  "sealed_secret" BYTEA NOT NULL,
  "created_at" TIMESTAMPTZ(3) NOT NULL,
  "confirmed_at" TIMESTAMPTZ(3),
  "last_step" BIGINT NOT NULL DEFAULT 0,
  "last_used_at" TIMESTAMPTZ(3),
  CONSTRAINT "authenticator_app_pkey" PRIMARY KEY ("id")
);
-- An account has one that counts, and beside it at most one that waits for its first code.
CREATE UNIQUE INDEX "authenticator_app_counts" ON "authenticator_app"("account_id") WHERE "confirmed_at" IS NOT NULL;
CREATE UNIQUE INDEX "authenticator_app_waits" ON "authenticator_app"("account_id") WHERE "confirmed_at" IS NULL;
ALTER TABLE "authenticator_app" ADD CONSTRAINT "authenticator_app_account_id_fkey" FOREIGN KEY ("account_id")
  REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

CREATE TABLE "recovery_code" (
  "account_id" UUID NOT NULL,
  "number" INTEGER NOT NULL,
  "code_hash" TEXT NOT NULL,
  "created_at" TIMESTAMPTZ(3) NOT NULL,
  "used_at" TIMESTAMPTZ(3),
  CONSTRAINT "recovery_code_pkey" PRIMARY KEY ("account_id", "number"),
  CONSTRAINT "recovery_code_number" CHECK ("number" BETWEEN 0 AND 9)
);
ALTER TABLE "recovery_code" ADD CONSTRAINT "recovery_code_account_id_fkey" FOREIGN KEY ("account_id")
  REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

CREATE TABLE "passkey" (
  "id" UUID NOT NULL DEFAULT gen_random_uuid(),
  "account_id" UUID NOT NULL,
  "credential_id" BYTEA NOT NULL,
  "public_key" BYTEA NOT NULL,
  "sign_count" BIGINT NOT NULL,
  "transports" TEXT[],
  "name" TEXT NOT NULL,
  "created_at" TIMESTAMPTZ(3) NOT NULL,
  "last_used_at" TIMESTAMPTZ(3),
  CONSTRAINT "passkey_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "passkey_named" CHECK (btrim("name") <> '')
);
CREATE UNIQUE INDEX "passkey_credential_id_key" ON "passkey"("credential_id");
CREATE UNIQUE INDEX "passkey_account_id_name_key" ON "passkey"("account_id", "name");
ALTER TABLE "passkey" ADD CONSTRAINT "passkey_account_id_fkey" FOREIGN KEY ("account_id")
  REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

CREATE TABLE "half_sign_in" (
  "token_hash" BYTEA NOT NULL,
  "account_id" UUID NOT NULL,
  "how" TEXT NOT NULL,
  "expires_at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "half_sign_in_pkey" PRIMARY KEY ("token_hash")
);
CREATE INDEX "half_sign_in_account_id_idx" ON "half_sign_in"("account_id");
CREATE INDEX "half_sign_in_expires_at_idx" ON "half_sign_in"("expires_at");
ALTER TABLE "half_sign_in" ADD CONSTRAINT "half_sign_in_account_id_fkey" FOREIGN KEY ("account_id")
  REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

CREATE TABLE "passkey_challenge" (
  "challenge_hash" BYTEA NOT NULL,
  "purpose" TEXT NOT NULL,
  "bound_to" BYTEA,
  "expires_at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "passkey_challenge_pkey" PRIMARY KEY ("challenge_hash")
);
CREATE INDEX "passkey_challenge_expires_at_idx" ON "passkey_challenge"("expires_at");

CREATE TABLE "factor_rule" (
  "role" TEXT NOT NULL,
  "from_day" DATE NOT NULL,
  CONSTRAINT "factor_rule_pkey" PRIMARY KEY ("role")
);

CREATE TABLE "factor_reset" (
  "account_id" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  "by" TEXT NOT NULL,
  "reason" TEXT NOT NULL,
  CONSTRAINT "factor_reset_pkey" PRIMARY KEY ("account_id")
);
ALTER TABLE "factor_reset" ADD CONSTRAINT "factor_reset_account_id_fkey" FOREIGN KEY ("account_id")
  REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;
