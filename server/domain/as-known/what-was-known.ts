import type { PlainDate } from '../calendar/plain-date.ts'
import type {
  AwardDecision,
  Break,
  CarriedAward,
  Certification,
  Extension,
  Review,
  Suspension,
  Terms,
} from '../certification/types.ts'
import type { Fact, RecordedFact, SheetState, TestOnSheet } from './recorded-facts.ts'

export interface KnownSheet extends TestOnSheet {
  readonly revision: number
  readonly state: SheetState
}

type Of<Kind extends Fact['kind']> = Extract<Fact, { kind: Kind }>

/** Everything known of a soldier that a status or a retest hangs on. */
export interface Known {
  readonly certifications: readonly Certification[]
  readonly breaks: readonly Break[]
  readonly sheets: readonly KnownSheet[]
  readonly awards: readonly (CarriedAward & { readonly certification: string })[]
  readonly withdrawals: readonly { readonly certification: string; readonly on: PlainDate }[]
  readonly suspensions: readonly (Suspension & { readonly certification: string })[]
  readonly decisions: readonly (AwardDecision & { readonly certification: string })[]
  readonly extensions: readonly (Extension & { readonly certification: string })[]
  readonly reviews: readonly Review[]
  /** The last one entered for a NO-GO holds. */
  readonly dueMoves: readonly Of<'due-move'>[]
}

/**
 * What was known of a soldier after some entries of the record.
 * In: what the entries said, in the order of the record, also of entries of the roster that were ever merged into this
 * one; the soldier's id. A fact entered under the id of a merged entry is the soldier's for as long as the merge holds.
 */
export function whatWasKnown(facts: readonly RecordedFact[], soldierId: string): Known {
  const owners = ownersAfter(facts, soldierId)
  const about = facts.filter(({ owner }) => owner === null || owners.has(owner))
  const all = <Kind extends Fact['kind']>(kind: Kind): Of<Kind>[] =>
    about.flatMap(({ fact }) => (fact.kind === kind ? [fact as Of<Kind>] : []))
  const takenBack = new Set(all('word-taken-back').map(({ word }) => word))
  const holds = ({ word }: { readonly word: string }) => !takenBack.has(word)
  return {
    certifications: certificationsOf(all('terms')),
    breaks: all('break'),
    sheets: sheetsOf(all('sheet'), statesAfter(facts)),
    awards: all('award').map((award, entry) => ({ ...award, id: award.awardedOn, entry })),
    withdrawals: all('withdrawal'),
    suspensions: suspensionsOf(all('suspension'), all('lift')),
    decisions: [
      ...all('approval').map((one) => ({ ...one, decision: 'approve' as const })),
      ...all('refusal').map((one) => ({ ...one, decision: 'refuse' as const })),
    ].filter(holds),
    extensions: all('extension').filter(holds),
    reviews: all('review'),
    dueMoves: all('due-move'),
  }
}

/** The ids under which the soldier is on the roster after the facts: the own one, and those merged into it. */
function ownersAfter(facts: readonly RecordedFact[], soldierId: string): ReadonlySet<string> {
  const keptBy = new Map<string, string>()
  for (const { fact } of facts) {
    if (fact.kind === 'merge') keptBy.set(fact.away, fact.kept)
    if (fact.kind === 'unmerge') keptBy.delete(fact.away)
  }
  const owners = new Set([soldierId])
  for (let before = 0; before < owners.size; ) {
    before = owners.size
    for (const [away, kept] of keptBy) if (owners.has(kept)) owners.add(away)
  }
  return owners
}

/**
 * How sheets stand after the facts. What a merge made of them in its own transaction is taken back with it: nothing else
 * of a merge that was undone stays.
 */
function statesAfter(facts: readonly RecordedFact[]): ReadonlyMap<string, SheetState> {
  const states = new Map<string, SheetState>()
  const beforeMerge = new Map<string, ReadonlyMap<string, SheetState>>()
  const mergedAt = new Map(facts.flatMap(({ at, fact }) => (fact.kind === 'merge' ? [[at, fact.away] as const] : [])))
  for (const { at, fact } of facts) {
    const away = mergedAt.get(at)
    if (away !== undefined && !beforeMerge.has(away)) beforeMerge.set(away, new Map())
    if (fact.kind === 'sheet') states.set(fact.test.id, fact.state)
    if (fact.kind === 'decision') {
      const stood = states.get(fact.sheetId)
      const undo = away === undefined ? undefined : beforeMerge.get(away)
      if (undo && stood) beforeMerge.set(away!, new Map([[fact.sheetId, stood], ...undo]))
      states.set(fact.sheetId, fact.state)
    }
    if (fact.kind === 'unmerge') {
      for (const [id, state] of beforeMerge.get(fact.away) ?? []) states.set(id, state)
      beforeMerge.delete(fact.away)
    }
  }
  return states
}

function sheetsOf(all: readonly Of<'sheet'>[], states: ReadonlyMap<string, SheetState>): KnownSheet[] {
  const last = new Map(all.map((sheet) => [sheet.test.id, sheet]))
  return [...last.values()].map(({ test, revision }) => ({ ...test, revision, state: states.get(test.id)! }))
}

function certificationsOf(all: readonly Of<'terms'>[]): Certification[] {
  const byCode = new Map<string, Certification & { terms: Terms[] }>()
  for (const { certification: code, standards, arms, terms } of all) {
    const known = byCode.get(code) ?? { code, standards, arms, terms: [] }
    known.terms.push(terms)
    byCode.set(code, known)
  }
  for (const { terms } of byCode.values()) terms.sort((a, b) => (a.effectiveFrom < b.effectiveFrom ? -1 : 1))
  return [...byCode.values()].sort((a, b) => (a.code < b.code ? -1 : 1))
}

function suspensionsOf(began: readonly Of<'suspension'>[], lifted: readonly Of<'lift'>[]) {
  const open = [...lifted]
  return began.map(({ certification, from }) => {
    const at = open.findIndex((lift) => lift.certification === certification && lift.from === from)
    const lift = at === -1 ? null : open.splice(at, 1)[0]!.on
    return { certification, from, lift }
  })
}
