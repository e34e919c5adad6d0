-- Files that are to be taken in: staged with their rows until they are stored or their time is over.

CREATE TABLE "import_job" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "account_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "file_name" TEXT NOT NULL,
    "format" TEXT NOT NULL,
    "sheet_name" TEXT,
    "sheet_names" TEXT[],
    "labels" TEXT[],
    "kind" TEXT NOT NULL,
    "mapping" JSONB,
    "dates" JSONB NOT NULL,
    "state" TEXT NOT NULL,
    "stage" TEXT NOT NULL,
    "done" INTEGER NOT NULL,
    "total" INTEGER NOT NULL,
    "beat_at" TIMESTAMPTZ(3),
    "cancel_asked" BOOLEAN NOT NULL,
    "counts" JSONB,
    "new_units" TEXT[],
    "problem" TEXT,
    CONSTRAINT "import_job_pkey" PRIMARY KEY ("id")
);
CREATE INDEX "import_job_account_id_created_at_idx" ON "import_job"("account_id", "created_at");
ALTER TABLE "import_job" ADD CONSTRAINT "import_job_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE import_job
  ADD CONSTRAINT import_job_state CHECK (state IN ('read', 'checking', 'checked', 'storing', 'stored', 'failed', 'cancelled')),
  ADD CONSTRAINT import_job_format CHECK (format IN ('csv', 'xlsx', 'json'));

CREATE TABLE "import_row" (
    "import_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "content" JSONB NOT NULL,
    "problems" JSONB NOT NULL,
    "outcome" TEXT,
    "about" TEXT NOT NULL,
    "reasons" JSONB NOT NULL,
    CONSTRAINT "import_row_pkey" PRIMARY KEY ("import_id", "number")
);
ALTER TABLE "import_row" ADD CONSTRAINT "import_row_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "import_job"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE import_row
  ADD CONSTRAINT import_row_outcome CHECK (outcome IN ('added', 'changed', 'unchanged', 'held', 'refused'));

CREATE TABLE "import_mapping" (
    "kind" TEXT NOT NULL,
    "labels" TEXT NOT NULL,
    "mapping" JSONB NOT NULL,
    "used_at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "import_mapping_pkey" PRIMARY KEY ("kind", "labels")
);
