import type { SheetBody } from '#contract/sheets/sheets.ts'

/** One thing an amendment would change, in words. */
export interface SaidChange {
  readonly what: string
  readonly before: string
  readonly after: string
}

interface Words {
  /** A measure's title by its code. */
  readonly measure: (code: string) => string
  readonly person: (id: string) => string
  readonly moment: (instant: string) => string
}

/**
 * What an amendment would change on a sheet, field by field; marks are said by the measures they belong to.
 * In: both bodies, and how measures, people and moments are named.
 */
export function formatChanges(before: SheetBody, after: SheetBody, { measure, person, moment }: Words): SaidChange[] {
  const said = (what: string, of: (body: SheetBody) => string): SaidChange[] =>
    of(before) === of(after) ? [] : [{ what, before: of(before), after: of(after) }]
  return [
    ...said('Purpose', ({ purpose }) => purpose),
    ...said('Version of the standard', ({ standardVersion }) => String(standardVersion)),
    ...said('Arm', ({ arm }) => arm ?? 'none'),
    ...said('Grader', ({ graderId }) => person(graderId)),
    ...said('Sponsor', ({ sponsorId }) => (sponsorId === null ? 'none' : person(sponsorId))),
    ...said('Started', ({ startedAt }) => moment(startedAt)),
    ...said('Finished', ({ finishedAt }) => moment(finishedAt)),
    ...said('Conditions', formatConditions),
    ...said('Void', (body) => body.void?.kind ?? 'no'),
    ...said('Outcome only', ({ outcomeOnly }) => outcomeOnly ?? 'no'),
    ...said('Second grader’s sheet', ({ secondOf }) => (secondOf === null ? 'no' : 'yes')),
    ...said('Set aside as a duplicate', ({ duplicateOf }) => (duplicateOf === undefined ? 'no' : 'yes')),
    ...measureChanges(before, after).map((change) => ({ ...change, what: measure(change.what) })),
    ...said('Notes', ({ notes }) => notes || 'none'),
  ]
}

function formatConditions({ conditions }: SheetBody): string {
  const wrong = [
    conditions.uniform ? '' : 'uniform',
    conditions.equipment ? '' : 'equipment',
    conditions.sponsorPresent ? '' : 'sponsor not there',
  ].filter(Boolean)
  return wrong.length === 0 ? 'in order' : `not in order: ${wrong.join(', ')}`
}

function measureChanges(before: SheetBody, after: SheetBody): SaidChange[] {
  const majors = (body: SheetBody) => new Map(body.majors.map(({ code, mark }) => [code, mark ?? 'not marked']))
  const minors = (body: SheetBody) =>
    new Map(
      body.minors.map(({ code, trials }) => [code, trials.map((mark) => mark ?? 'blank').join(', ') || 'not called']),
    )
  return [
    ...differing(majors(before), majors(after), 'not marked'),
    ...differing(minors(before), minors(after), 'not called'),
  ]
}

function differing(
  before: ReadonlyMap<string, string>,
  after: ReadonlyMap<string, string>,
  none: string,
): SaidChange[] {
  return [...new Set([...before.keys(), ...after.keys()])].flatMap((what) => {
    const [was, is] = [before.get(what) ?? none, after.get(what) ?? none]
    return was === is ? [] : [{ what, before: was, after: is }]
  })
}
