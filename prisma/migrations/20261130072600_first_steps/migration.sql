-- Steps of setting up a unit that it does without.
CREATE TABLE "first_step_skipped" (
    "step" TEXT NOT NULL,

    CONSTRAINT "first_step_skipped_pkey" PRIMARY KEY ("step"),
    CONSTRAINT "first_step_skipped_step" CHECK ("step" IN (
      'units', 'arms-and-grades', 'standards', 'certifications', 'roster', 'sponsors', 'graders', 'accounts', 'test-days', 'ceremonies'))
);
