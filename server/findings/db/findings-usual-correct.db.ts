import type { Transaction } from '../../db/client.ts'

/**
 * Share of trials that the average grader marks correct for the average candidate's first test, over the measures of the present
 * fits of these standards; null: there is none.
 */
export async function readUsualCorrect(tx: Transaction, standards: readonly string[]): Promise<number | null> {
  const [row] = await tx.$queryRaw<[{ share: number | null }]>`
    SELECT avg(1 / (1 + exp(-ease.value::float8))) AS share
    FROM ability_fit f JOIN standard st ON st.id = f.standard_id
      CROSS JOIN LATERAL jsonb_array_elements_text(f.fit -> 'ease') AS ease(value)
    WHERE f.before_day IS NULL AND (f.fit ->> 'sheets')::int > 0 AND st.code = ANY(${[...standards]})`
  return row.share
}
