-- What the model behind the figures knows of each standard: derived from sheets, and made anew when they change.
CREATE TABLE "ability_fit" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "standard_id" UUID NOT NULL,
    "before_day" DATE,
    "fingerprint" TEXT NOT NULL,
    "fitted_at" TIMESTAMPTZ(3) NOT NULL,
    "through_day" DATE,
    "fit" JSONB NOT NULL,

    CONSTRAINT "ability_fit_pkey" PRIMARY KEY ("id")
);
ALTER TABLE "ability_fit" ADD CONSTRAINT "ability_fit_standard_id_before_day_key"
    UNIQUE NULLS NOT DISTINCT ("standard_id", "before_day");
ALTER TABLE "ability_fit" ADD CONSTRAINT "ability_fit_standard_id_fkey"
    FOREIGN KEY ("standard_id") REFERENCES "standard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- What would have been forecast of each test the day before it.
CREATE TABLE "past_forecast" (
    "sheet_id" UUID NOT NULL,
    "kind" TEXT NOT NULL CHECK ("kind" IN ('first', 'retest', 'renewal')),
    "forecast" DOUBLE PRECISION NOT NULL CHECK ("forecast" BETWEEN 0 AND 1),
    "by_kind" DOUBLE PRECISION NOT NULL CHECK ("by_kind" BETWEEN 0 AND 1),
    "by_last" DOUBLE PRECISION NOT NULL CHECK ("by_last" BETWEEN 0 AND 1),
    "fingerprint" TEXT NOT NULL,

    CONSTRAINT "past_forecast_pkey" PRIMARY KEY ("sheet_id")
);
ALTER TABLE "past_forecast" ADD CONSTRAINT "past_forecast_sheet_id_fkey"
    FOREIGN KEY ("sheet_id") REFERENCES "sheet"("id") ON DELETE CASCADE ON UPDATE CASCADE;
