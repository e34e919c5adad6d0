-- Notifications outside the pages, by Web Push: off until an administrator turns them on.
CREATE TABLE "push_setting" (
    "one" BOOLEAN NOT NULL DEFAULT true,
    "is_on" BOOLEAN NOT NULL,
    "contact" TEXT NOT NULL,

    CONSTRAINT "push_setting_pkey" PRIMARY KEY ("one")
);
ALTER TABLE push_setting ADD CONSTRAINT push_setting_is_one CHECK (one);

-- A browser that somebody opted in with; its address at a push service, and the keys that only that browser can read by.
CREATE TABLE "push_subscription" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "account_id" UUID NOT NULL,
    "session_id" UUID NOT NULL,
    "endpoint" TEXT NOT NULL,
    "p256dh" TEXT NOT NULL,
    "auth" TEXT NOT NULL,
    "since" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "push_subscription_pkey" PRIMARY KEY ("id")
);
CREATE UNIQUE INDEX "push_subscription_endpoint_key" ON "push_subscription"("endpoint");
CREATE INDEX "push_subscription_account_id_idx" ON "push_subscription"("account_id");
CREATE INDEX "push_subscription_session_id_idx" ON "push_subscription"("session_id");
ALTER TABLE "push_subscription" ADD CONSTRAINT "push_subscription_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- What is to be sent to it: one of a kind, since none says more than that there is news.
CREATE TABLE "push_message" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "subscription_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "due_at" TIMESTAMPTZ(3) NOT NULL,
    "tries" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "push_message_pkey" PRIMARY KEY ("id")
);
CREATE UNIQUE INDEX "push_message_subscription_id_kind_key" ON "push_message"("subscription_id", "kind");
CREATE INDEX "push_message_due_at_idx" ON "push_message"("due_at");
ALTER TABLE "push_message" ADD CONSTRAINT "push_message_subscription_id_fkey" FOREIGN KEY ("subscription_id") REFERENCES "push_subscription"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE push_message ADD CONSTRAINT push_message_kind CHECK (kind IN ('booking', 'call-off', 'result'));
