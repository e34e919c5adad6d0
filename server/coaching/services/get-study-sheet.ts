import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { today as todayOf, todayOfSoldier } from '../../context/today.ts'
import type { StudySheet } from '../../contract/coaching/study.ts'
import type { StandardVersion } from '../../db/catalogue.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { measureHistories } from '../../domain/coaching/measure-history.ts'
import { studyFaults } from '../../domain/coaching/study-faults.ts'
import { coverPeriod } from '../../domain/tallies/cover-period.ts'
import { poolMeasures } from '../../domain/tallies/pool-measures.ts'
import { notFound } from '../../errors.ts'
import { readMeasureTallies } from '../../findings/db/findings-measures.db.ts'
import { readSoldier } from '../../soldiers/db/roster.db.ts'
import { listMarkedTests, listOwnFaults } from '../db/coaching.db.ts'

/**
 * The study sheet of a standard. The unit's faults are the sum of everybody and name nobody, so whoever is signed in may have
 * them; a candidate's own only who sees the candidate otherwise than as their grader.
 */
export async function getStudySheet(
  context: Context,
  actor: Actor,
  standard: string,
  { candidateId }: { readonly candidateId?: string | undefined },
): Promise<StudySheet> {
  const scope = { ...(await scopeFor(context, actor)), graderId: null }
  const asOf = candidateId ? await todayOfSoldier(context, candidateId) : await todayOf(context)
  const person = candidateId ? await readSoldier(context.db, scope, candidateId, asOf) : null
  if (candidateId && !person) throw notFound('soldier')
  const { standards } = await context.catalogue.current(context.db)
  const versions = (standards.get(standard) ?? []).filter(({ publishedAt }) => publishedAt !== null)
  const current = versions.findLast(({ effectiveFrom }) => effectiveFrom <= asOf) ?? versions.at(-1)
  if (!current) throw notFound('standard')
  const [unit, tests, ownFaults] = await Promise.all([
    unitMeasures(context, versions, current.version),
    candidateId ? listMarkedTests(context.db, scope, [candidateId]) : [],
    candidateId ? listOwnFaults(context.db, scope, [candidateId]) : [],
  ])
  const own = tests.filter((test) => test.standard === standard)
  const definitions = new Map(versions.map((one) => [one.version, one.definition]))
  const histories = measureHistories(own, definitions, current.definition)
  const { majors, minors } = current.definition
  const measures = [
    ...majors.map((major) => ({ ...major, major: true })),
    ...minors.map((minor) => ({ ...minor, major: false })),
  ].map((measure) => {
    const pooled = unit.find((one) => one.measure === measure.code)
    const noted = (pooled?.faults ?? []).map(({ code, count }) => ({ measure: measure.code, fault: code, count }))
    const decided = histories.find((one) => one.measure === measure.code && one.major === measure.major)?.decided ?? []
    return {
      measure: measure.code,
      major: measure.major,
      trials: pooled?.trials ?? 0,
      own: { tested: decided.length, noGo: decided.filter(({ go }) => !go).length },
      faults: studyFaults(
        measure,
        noted,
        ownFaults.filter((one) => one.standard === standard),
      ),
    }
  })
  return {
    asOf,
    standard: { ...current.definition, id: current.id, publishedAt: current.publishedAt },
    candidate: person
      ? { id: person.id, name: `${person.grade} ${person.familyName}, ${person.givenName}`, tests: own.length }
      : null,
    measures,
  }
}

/** Counts of the whole unit by measure as a version defines it, over all versions that define it alike. */
async function unitMeasures(context: Context, versions: readonly StandardVersion[], version: number) {
  const filter = {
    versionIds: versions.map(({ id }) => id),
    unitId: undefined,
    arm: undefined,
    attempts: 'all' as const,
    from: null,
    to: null,
    periods: coverPeriod(null, null),
  }
  const tallies = await readMeasureTallies(context.db, filter, null)
  const rows = tallies.map((row) => {
    const of = versions.find(({ id }) => id === row.versionId)!
    return { ...row, of: { ...of, standard: of.code } }
  })
  return poolMeasures(rows).filter(({ versions: alike }) => alike.includes(version))
}
