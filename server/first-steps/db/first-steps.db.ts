import type { FirstStepName } from '../../contract/first-steps/first-steps.ts'
import type { Transaction } from '../../db/client.ts'

export interface StepRow {
  readonly step: FirstStepName
  readonly count: number
  readonly waiting: number
  readonly skipped: boolean
}

/** How far the unit is with each step of setting up, in order. Only whether there are any matters, so at most 1,000 are counted. */
export const readSteps = (tx: Transaction): Promise<StepRow[]> => tx.$queryRaw<StepRow[]>`
  SELECT each.step, each.count::int, each.waiting::int,
    EXISTS (SELECT FROM first_step_skipped s WHERE s.step = each.step) AS skipped
  FROM (VALUES
    (1, 'units', (SELECT count(*) FROM (SELECT FROM unit LIMIT 1000) x), 0),
    (2, 'arms-and-grades',
      (SELECT count(*) FROM grade WHERE confirmed) + (SELECT count(*) FROM arm WHERE confirmed),
      (SELECT count(*) FROM grade WHERE NOT confirmed) + (SELECT count(*) FROM arm WHERE NOT confirmed)),
    (3, 'standards',
      (SELECT count(*) FROM standard_version WHERE published_at IS NOT NULL),
      (SELECT count(*) FROM standard_version WHERE published_at IS NULL)),
    (4, 'certifications', (SELECT count(*) FROM certification), 0),
    (5, 'roster', (SELECT count(*) FROM (SELECT FROM soldier LIMIT 1000) x), 0),
    (6, 'sponsors', (SELECT count(*) FROM (SELECT FROM sponsorship LIMIT 1000) x), 0),
    (7, 'graders', (SELECT count(*) FROM (SELECT FROM appointment LIMIT 1000) x), 0),
    (8, 'accounts', (SELECT count(*) - 1 FROM account), 0),
    (9, 'test-days', (SELECT count(*) FROM (SELECT FROM test_day LIMIT 1000) x), 0),
    (10, 'ceremonies', (SELECT count(*) FROM (SELECT FROM ceremony LIMIT 1000) x), 0)
  ) AS each(place, step, count, waiting) ORDER BY each.place`

/** Out: whether something changed. */
export async function setSkipped(tx: Transaction, step: FirstStepName, skipped: boolean): Promise<boolean> {
  const { count } = skipped
    ? await tx.firstStepSkipped.createMany({ data: [{ step }], skipDuplicates: true })
    : await tx.firstStepSkipped.deleteMany({ where: { step } })
  return count > 0
}
