import { soundPosts } from '../../ceremonies/services/manning/sound-posts.ts'
import type { CeremonyItem, SheetItem } from '../../contract/imports/import-items.ts'
import type { ImportKind } from '../../contract/imports/imports.ts'
import type { Part } from '../../contract/imports/salvage.ts'
import type { StandardBody } from '../../contract/standards/standards.ts'
import { findMalformed } from '../../domain/scoring/find-malformed.ts'
import { scoreSheet } from '../../domain/scoring/score-sheet.ts'
import { checkDefinition } from '../../domain/standards/check-definition.ts'
import { closedScore } from '../../sheets/services/score-body.ts'
import { scoredStandard } from '../../sheets/services/scored-standard.ts'
import { measureAfterMeasure } from '../../standards/services/measure-after-measure.ts'
import { findVersions, versionOn } from './find-named.ts'
import { formatRefusal, type Given, type Run } from './run.ts'
import { toInstant } from './sheet-bodies.ts'

type Rules<Item> = (run: Run, item: Part<Item>, unread: readonly string[]) => readonly string[]

/** The rules that only taking in would come to; of a row with faults they are looked at as far as it can be read. */
const RULES: Partial<Readonly<Record<ImportKind, Rules<never>>>> = {
  sheets: sheetRules satisfies Rules<SheetItem>,
  standards: standardRules satisfies Rules<StandardBody>,
  ceremonies: ceremonyRules satisfies Rules<CeremonyItem>,
}

/** Adds to each thing that has faults already what else is wrong with it, so that all is said at once. */
export function findBrokenRules(run: Run, kind: ImportKind, given: readonly Given<never>[]): Given<never>[] {
  const rules = RULES[kind]
  return given.map((one) =>
    one.faults.length === 0 || !rules
      ? one
      : { ...one, faults: [...one.faults, ...rules(run, one.item, [...one.unread])] },
  )
}

const ABOUT_MARKS = /^(majors|minors|measure\/|outcomeOnly|void)/

function sheetRules(run: Run, sheet: Part<SheetItem>, unread: readonly string[]): string[] {
  const { startedAt, finishedAt, standard, standardVersion } = sheet
  const wrong: string[] = []
  if (endsFirst(run, startedAt, finishedAt)) wrong.push('The test is finished before it is started: mend either time.')
  const versions = standard === undefined ? [] : findVersions(run.catalogue, standard)
  const named = versions.find(({ version }) => version === standardVersion)
  const version = named ?? (finishedAt === undefined ? undefined : versionOn(versions, finishedAt.slice(0, 10)))
  if (!version) return wrong
  const marks = {
    majors: unread.includes('majors') ? [] : (sheet.majors as SheetItem['majors']),
    minors: unread.includes('minors') ? [] : (sheet.minors as SheetItem['minors']),
    void: sheet.void?.kind ? { kind: sheet.void.kind } : null,
    outcomeOnly: sheet.outcomeOnly ?? null,
  }
  const scored = scoredStandard(version)
  const malformed = findMalformed(scored, marks)
  wrong.push(...malformed.map(({ detail }) => detail))
  if (malformed.length > 0 || unread.some((key) => ABOUT_MARKS.test(key))) return wrong
  return [...wrong, ...thrownBy(() => closedScore(scoreSheet(scored, marks)))]
}

const ABOUT_MEASURES = /^(rule|trials|needed|percent|majors|minors|measure|class|faults|gauges|calls)/

function standardRules(_run: Run, standard: Part<StandardBody>, unread: readonly string[]): string[] {
  if (unread.some((key) => ABOUT_MEASURES.test(key))) return []
  const measured = standard as StandardBody
  const calls = measured.calls.length > 0 ? measured.calls : measureAfterMeasure(measured)
  return checkDefinition({ ...measured, calls }).map(({ detail }) => detail)
}

function ceremonyRules(run: Run, { startsAt, endsAt, posts = [] }: Part<CeremonyItem>): string[] {
  const wrong = endsFirst(run, startsAt, endsAt) ? ['The ceremony ends before it starts.'] : []
  const placed = posts.flatMap(({ row, place, rosterNumber = null, certification = '' }) =>
    row === undefined || place === undefined ? [] : [{ row, place, certification, soldierId: rosterNumber }],
  )
  const certifications = new Map(placed.map(({ certification }) => [certification, certification]))
  const named = new Set(placed.flatMap(({ soldierId }) => soldierId ?? []))
  const rest = { title: '', arm: null, grades: null, minHeightCm: null, maxHeightCm: null }
  const full = placed.map((post) => ({ ...rest, ...post }))
  return [...wrong, ...thrownBy(() => soundPosts(full, certifications, named, []))]
}

function endsFirst({ context }: Run, start: string | undefined, end: string | undefined): boolean {
  if (start === undefined || end === undefined) return false
  return Date.parse(toInstant(start, context.timeZone)) > Date.parse(toInstant(end, context.timeZone))
}

function thrownBy(work: () => unknown): string[] {
  try {
    work()
    return []
  } catch (error) {
    return formatRefusal(error)
  }
}
