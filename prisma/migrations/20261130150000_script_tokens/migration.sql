CREATE TABLE "script_token" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "account_id" UUID NOT NULL,
    "token_hash" BYTEA NOT NULL,
    "name" TEXT NOT NULL,
    "scopes" TEXT[],
    "unit_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "last_used_on" DATE,

    CONSTRAINT "script_token_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "script_token_named" CHECK (btrim("name") <> ''),
    CONSTRAINT "script_token_for_something" CHECK (cardinality("scopes") > 0),
    CONSTRAINT "script_token_expires" CHECK ("expires_at" > "created_at")
);

CREATE UNIQUE INDEX "script_token_token_hash_key" ON "script_token"("token_hash");
CREATE UNIQUE INDEX "script_token_account_id_name_key" ON "script_token"("account_id", "name");
CREATE INDEX "script_token_unit_id_idx" ON "script_token"("unit_id");

ALTER TABLE "script_token" ADD CONSTRAINT "script_token_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "script_token" ADD CONSTRAINT "script_token_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE CASCADE ON UPDATE CASCADE;
