CREATE TABLE "calendar_link" (
    "account_id" UUID NOT NULL,
    "token_hash" BYTEA NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "calendar_link_pkey" PRIMARY KEY ("account_id")
);

CREATE UNIQUE INDEX "calendar_link_token_hash_key" ON "calendar_link"("token_hash");

ALTER TABLE "calendar_link" ADD CONSTRAINT "calendar_link_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;
