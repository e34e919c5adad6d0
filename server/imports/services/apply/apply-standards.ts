import { isDeepStrictEqual } from 'node:util'
import type { StandardBody } from '../../../contract/standards/standards.ts'
import { bumpRevision } from '../../../db/catalogue.db.ts'
import { checkDefinition } from '../../../domain/standards/check-definition.ts'
import { insertStandardVersion } from '../../../standards/db/catalogue-writes.db.ts'
import { measureAfterMeasure } from '../../../standards/services/measure-after-measure.ts'
import { type Effect, type Given, type Run, verdictList } from '../run.ts'

/** Takes in versions of standards as drafts, which the office publishes. */
export async function applyStandards(run: Run, given: readonly Given<StandardBody>[]): Promise<Effect> {
  const { tx, catalogue, note } = run
  const { verdicts, say } = verdictList()
  const known = new Map(
    [...catalogue.standards.values()].flat().map(({ code, version, definition }) => [`${code} ${version}`, definition]),
  )
  for (const { rows, about, item } of given) {
    const definition: StandardBody = JSON.parse(
      JSON.stringify(item.calls.length > 0 ? item : { ...item, calls: measureAfterMeasure(item) }),
    )
    const problems = checkDefinition(definition)
    const same = known.get(`${item.code} ${item.version}`)
    if (problems.length > 0) say(rows, 'refused', about, ...problems.map(({ detail }) => detail))
    else if (same && isDeepStrictEqual(same, definition)) say(rows, 'unchanged', about)
    else if (same)
      say(rows, 'refused', about, `Version ${item.version} is there already and says otherwise; give the next number.`)
    else {
      const id = await insertStandardVersion(tx, definition)
      known.set(`${item.code} ${item.version}`, definition)
      note({
        action: 'standard.drafted',
        subject: { kind: 'standard', id },
        after: { code: item.code, version: item.version },
      })
      say(rows, 'added', about, 'as a draft; publish it under Standards')
    }
  }
  if ([...verdicts.values()].some(({ outcome }) => outcome === 'added')) await bumpRevision(tx)
  return { verdicts, triggers: [] }
}
