import type { CertificationBody } from '../../../contract/standards/certifications.ts'
import type { Catalogue } from '../../../db/catalogue.db.ts'
import type { Transaction } from '../../../db/client.ts'
import type { Fact, RecordedFact, SheetState } from '../../../domain/as-known/recorded-facts.ts'
import { dayInZone } from '../../../domain/calendar/day-in-zone.ts'
import { toMillis } from '../../../domain/calendar/to-millis.ts'
import {
  type KnownEntry,
  type KnownRevision,
  readIdsEver,
  readKnownEntries,
  readKnownRevisions,
  readSuspensionKeys,
} from '../../db/as-known.db.ts'

/** In the order of the record, but what it does not tell of: that was there from the beginning. */
const ALWAYS = Number.NEGATIVE_INFINITY

/** All facts in the order in which they became known. In: a soldier whose personal data was not removed. */
export async function gatherFacts(
  tx: Transaction,
  catalogue: Catalogue,
  soldierId: string,
  zone: string,
): Promise<RecordedFact[]> {
  const ids = await readIdsEver(tx, soldierId)
  const revisions = await readKnownRevisions(tx, ids)
  const suspensions = await readSuspensionKeys(tx, ids)
  const sheetIds = new Set(revisions.map(({ sheetId }) => sheetId))
  const entries = await readKnownEntries(tx, [...ids, ...sheetIds])
  const owners = new Map(revisions.map(({ sheetId, owner }) => [sheetId, owner]))
  const facts = entries.flatMap((entry): RecordedFact[] => {
    const sheet = factOfSheet(entry, revisions, zone)
    if (sheet) return [{ at: entry.at.getTime(), owner: owners.get(entry.subjectId)!, fact: sheet }]
    const fact = factOfSoldier(entry, suspensions) ?? factOfTerms(entry)
    const holdsForAll = fact?.kind === 'terms' || fact?.kind === 'merge' || fact?.kind === 'unmerge'
    return fact ? [{ at: entry.at.getTime(), owner: holdsForAll ? null : entry.subjectId, fact }] : []
  })
  const untold = [...untoldTerms(catalogue, facts), ...untoldSheets(revisions, facts, zone)]
  return [...untold, ...breaksOf(catalogue), ...facts].sort((a, b) => (a.at === b.at ? 0 : a.at < b.at ? -1 : 1))
}

function factOfSheet(
  { action, subjectId, after }: KnownEntry,
  revisions: readonly KnownRevision[],
  zone: string,
): Fact | null {
  if (!action.startsWith('sheet.')) return null
  const { state, revision: number = 1 } = after as { state: SheetState; revision?: number }
  if (action !== 'sheet.submitted' && action !== 'sheet.amended') return { kind: 'decision', sheetId: subjectId, state }
  const revision = revisions.find((one) => one.sheetId === subjectId && one.number === number)!
  return { kind: 'sheet', test: testOf(revision, zone), revision: number, state }
}

function testOf(revision: KnownRevision, zone: string): Extract<Fact, { kind: 'sheet' }>['test'] {
  const { sheetId: id, standard, version, arm, finishedAt, outcome, purpose, isSecond } = revision
  const day = finishedAt === revision.lastFinishedAt ? revision.lastDay : dayInZone(finishedAt, zone)
  const isPractice = purpose === 'practice'
  return { id, standard, version, arm, finishedAt: toMillis(finishedAt), day, outcome, isPractice, isSecond }
}

function factOfSoldier(
  { action, subjectId, after }: KnownEntry,
  suspensions: ReadonlyMap<string, { certification: string; from: string }>,
): Fact | null {
  const words = after as Readonly<Record<string, string>>
  const { certification, standard, on, from, due, awardedOn, validThrough } = words as Record<string, string> & {
    [Name in 'certification' | 'standard' | 'on' | 'from' | 'due' | 'awardedOn' | 'validThrough']: string
  }
  if (WORDS.has(action)) return factOfWord(action, words)
  if (action === 'award.carried-over') return { kind: 'award', certification, awardedOn, validThrough }
  if (action === 'withdrawal.added') return { kind: 'withdrawal', certification, on }
  if (action === 'suspension.began') return { kind: 'suspension', certification, from }
  if (action === 'review.added') return { kind: 'review', standard, on }
  if (action === 'retest.due-moved') return { kind: 'due-move', certification, standard, on, due }
  if (action === 'soldier.merged') return { kind: 'merge', kept: subjectId, away: words.away! }
  if (action === 'soldier.merge-undone') return { kind: 'unmerge', kept: subjectId, away: words.away! }
  const lifted = action === 'suspension.lifted' ? suspensions.get(words.suspension!) : undefined
  return lifted ? { kind: 'lift', ...lifted, on } : null
}

const WORDS = new Set([
  'award.approved',
  'award.refused',
  'award.extended',
  'award.decision-taken-back',
  'award.extension-taken-back',
])

/** What a commander said of an award, or took back. */
function factOfWord(action: string, after: Readonly<Record<string, unknown>>): Fact {
  const { word, certification, sheetId, award, on, days } = after as {
    readonly [Name in 'word' | 'certification' | 'sheetId' | 'award' | 'on']: string
  } & { readonly days: number }
  if (action === 'award.extended') return { kind: 'extension', word, certification, award, days }
  if (action === 'award.approved') return { kind: 'approval', word, certification, sheetId, on }
  if (action === 'award.refused') return { kind: 'refusal', word, certification, sheetId, on }
  return { kind: 'word-taken-back', word }
}

function factOfTerms({ action, after }: KnownEntry): Fact | null {
  if (!action.startsWith('certification.')) return null
  const { code, standards, arms, ...terms } = after as unknown as CertificationBody
  return { kind: 'terms', certification: code, standards, arms, terms }
}

/** Terms of which the record has no entry. */
function untoldTerms(catalogue: Catalogue, facts: readonly RecordedFact[]): RecordedFact[] {
  const told = new Set(
    facts.flatMap(({ fact }) => (fact.kind === 'terms' ? [`${fact.certification} ${fact.terms.effectiveFrom}`] : [])),
  )
  return catalogue.certifications.flatMap(({ code, standards, arms, terms }) =>
    terms
      .filter(({ effectiveFrom }) => !told.has(`${code} ${effectiveFrom}`))
      .map((one) => ({
        at: ALWAYS,
        owner: null,
        fact: { kind: 'terms', certification: code, standards, arms, terms: one },
      })),
  )
}

/** Sheets of which the record has no entry, as they stand, from when they were stored. */
function untoldSheets(
  revisions: readonly KnownRevision[],
  facts: readonly RecordedFact[],
  zone: string,
): RecordedFact[] {
  const told = new Set(facts.flatMap(({ fact }) => (fact.kind === 'sheet' ? [`${fact.test.id} ${fact.revision}`] : [])))
  return revisions
    .filter(({ sheetId, number }) => !told.has(`${sheetId} ${number}`))
    .map((one) => ({
      at: one.at.getTime(),
      owner: one.owner,
      fact: { kind: 'sheet', test: testOf(one, zone), revision: one.number, state: one.lastState },
    }))
}

/** Versions that end what was kept under earlier ones, known since they were published. */
function breaksOf({ standards }: Catalogue): RecordedFact[] {
  return [...standards.values()].flat().flatMap((one): RecordedFact[] => {
    const { code: standard, version, effectiveFrom, publishedAt, equivalentToPrevious } = one
    if (publishedAt === null || equivalentToPrevious) return []
    return [{ at: Date.parse(publishedAt), owner: null, fact: { kind: 'break', standard, version, effectiveFrom } }]
  })
}
