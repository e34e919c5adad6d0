-- Accounts are invited and may be disabled; sessions say whence they are; wrong passwords are counted.

ALTER TABLE "account" ALTER COLUMN "password_hash" DROP NOT NULL;
ALTER TABLE "account" ADD COLUMN "disabled_at" TIMESTAMPTZ(3);

-- A session opened before says not whence; whoever has one signs in again.
DELETE FROM "session";
ALTER TABLE "session"
  ADD COLUMN "id" UUID NOT NULL DEFAULT gen_random_uuid(),
  ADD COLUMN "network" TEXT NOT NULL,
  ADD COLUMN "device" TEXT NOT NULL;
CREATE UNIQUE INDEX "session_id_key" ON "session"("id");

CREATE TABLE "invitation" (
  "token_hash" BYTEA NOT NULL,
  "account_id" UUID NOT NULL,
  "expires_at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "invitation_pkey" PRIMARY KEY ("token_hash")
);
CREATE UNIQUE INDEX "invitation_account_id_key" ON "invitation"("account_id");
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_account_id_fkey" FOREIGN KEY ("account_id")
  REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

CREATE TABLE "known_device" (
  "token_hash" BYTEA NOT NULL,
  "account_id" UUID NOT NULL,
  "seen_at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "known_device_pkey" PRIMARY KEY ("token_hash")
);
CREATE INDEX "known_device_account_id_idx" ON "known_device"("account_id");
ALTER TABLE "known_device" ADD CONSTRAINT "known_device_account_id_fkey" FOREIGN KEY ("account_id")
  REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

CREATE TABLE "password_tries" (
  "key" BYTEA NOT NULL,
  "level" DOUBLE PRECISION NOT NULL,
  "counted_at" TIMESTAMPTZ(3) NOT NULL,
  "wait_until" TIMESTAMPTZ(3),
  CONSTRAINT "password_tries_pkey" PRIMARY KEY ("key")
);
CREATE INDEX "password_tries_counted_at_idx" ON "password_tries"("counted_at");
