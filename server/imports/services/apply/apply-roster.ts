import { randomUUID } from 'node:crypto'
import { findPartialTo } from '../../../access/db/impartiality.db.ts'
import { readClosedUnits } from '../../../access/db/units.db.ts'
import { formatClosed } from '../../../access/services/require.ts'
import { NOT_IMPARTIAL } from '../../../access/services/require-impartial.ts'
import type { RosterItem } from '../../../contract/imports/import-items.ts'
import { planSoldier, type RosterRow, type SoldierPlan } from '../../../domain/import/plan-soldier.ts'
import { closedWithin } from '../../../domain/people/closed-within.ts'
import { changesOf, insertChanges, replacePeriods } from '../../../soldiers/db/many-soldiers.db.ts'
import { insertSoldiers, type KnownSoldier, renameSoldiers, soldiersByNumber } from '../../db/import-people.db.ts'
import { identityOf } from '../identity.ts'
import { type Effect, type Given, holdSoldiers, inParts, type Run, verdictList } from '../run.ts'
import { type UnitFinder, unitFinder } from '../unit-finder.ts'

const TOGETHER = 2_000

interface Planned {
  readonly soldier: KnownSoldier
  readonly renamed: boolean
  readonly isNew: boolean
  readonly plan: SoldierPlan
}

/** Takes in soldiers: new ones, and what changes about known ones from the day of each row on. */
export async function applyRoster(run: Run, given: readonly Given<RosterItem>[]): Promise<Effect> {
  const units = await unitFinder(run, true)
  const { verdicts, say } = verdictList()
  const groups = new Map<string, Given<RosterItem>[]>()
  for (const one of given.filter(isRead))
    groups.set(one.item.rosterNumber, [...(groups.get(one.item.rosterNumber) ?? []), one])
  const known = await soldiersByNumber(run.tx, [...groups.keys()])
  const ids = [...known.values()].map(({ id }) => id)
  await holdSoldiers(run, ids)
  const changes = await changesOf(run.tx, ids)
  const own = await partialAmong(run, ids)
  const closed = await readClosedUnits(run.tx, null)
  const planned: Planned[] = []
  for (const [number, rows] of groups) {
    const soldier = known.get(number)
    const identity = identityOf(rows, soldier, run.questions)
    const { facts, faults } = await factsOf(rows, units)
    for (const [row, why] of 'wrong' in identity ? identity.wrong : []) {
      faults.set(row, [...(faults.get(row) ?? []), why])
    }
    if (faults.size > 0 || facts.length === 0 || 'wrong' in identity) {
      for (const row of rows) {
        const why = faults.get(row) ?? ['Another row about this soldier is refused.']
        say(row.rows, 'refused', row.about, ...why)
      }
      continue
    }
    const { names, isCorrected: renamed } = identity
    const plan = planSoldier(changes.get(soldier?.id ?? '') ?? [], facts)
    const wrong = whatIsWrong(plan, rows[0]!.rows[0]!, {
      overrun: closedWithin(plan.periods, closed),
      isPartial: soldier !== undefined && own.has(soldier.id),
      isNamed: names !== null,
    })
    if (wrong !== null || names === null) {
      for (const row of rows) {
        const detail = row.rows[0] === wrong!.row ? wrong!.detail : `Row ${wrong!.row} about this soldier is refused.`
        say(row.rows, 'refused', rows[0]!.about, detail)
      }
      continue
    }
    planned.push({
      soldier: { id: soldier?.id ?? randomUUID(), rosterNumber: number, ...names },
      renamed,
      isNew: !soldier,
      plan,
    })
    formatChanges(rows, plan, soldier, renamed, units, say)
  }
  for (const { rows, about, item, faults } of given.filter((one) => !isRead(one))) {
    const unit = units.whyNone(item)
    say(rows, 'refused', about, ...faults, ...(unit === null ? [] : [unit]))
  }
  await store(run, planned)
  const touched = planned.filter(({ isNew, plan }) => !isNew && plan.changes.length > 0)
  return { verdicts, triggers: touched.map(({ soldier }) => ({ soldierId: soldier.id })), newUnits: units.added }
}

const isRead = ({ unread }: Given<RosterItem>): boolean => unread.size === 0

interface Judged {
  /** The closed unit that somebody would be in. */
  readonly overrun: Parameters<typeof formatClosed>[0] | undefined
  /** Whoever sends the file may change nothing about the soldier. */
  readonly isPartial: boolean
  readonly isNamed: boolean
}

/** What keeps a plan from being stored, and at which row of the file; null: nothing. */
function whatIsWrong(plan: SoldierPlan, first: number, { overrun, isPartial, isNamed }: Judged): SoldierPlan['wrong'] {
  if (plan.wrong) return plan.wrong
  if (overrun) return { row: first, detail: formatClosed(overrun) }
  if (isPartial && plan.changes.length > 0) return { row: first, detail: NOT_IMPARTIAL }
  return isNamed ? null : { row: first, detail: 'Somebody new needs a family name and a given name.' }
}

/** Whom of them whoever sends the file may change nothing about. */
async function partialAmong({ tx, note }: Run, ids: readonly string[]): Promise<ReadonlySet<string>> {
  return new Set(note.soldierId === null ? [] : await findPartialTo(tx, note.soldierId, ids))
}

type Fact = RosterRow & { readonly row: number }

/** What the rows say, by day, and all that is wrong with each. */
async function factsOf(
  rows: readonly Given<RosterItem>[],
  units: UnitFinder,
): Promise<{ facts: Fact[]; faults: Map<Given<RosterItem>, readonly string[]> }> {
  const facts: Fact[] = []
  const faults = new Map<Given<RosterItem>, readonly string[]>()
  for (const row of rows) {
    const number = row.rows[0]!
    const { from, grade, arms, left, leftOn, unit: named, unitId } = row.item
    const unit = named === undefined && unitId === undefined ? undefined : await units.find({ unit: named, unitId })
    const wrong = [...row.faults]
    if (unit && 'wrong' in unit) wrong.push(unit.wrong)
    if (left && !leftOn && unit) {
      wrong.push('A row says either which unit or that the soldier left. Give the day in "Left on", or empty the unit.')
    }
    if (leftOn && leftOn < from) wrong.push('The soldier leaves before the day the row begins.')
    const id = unit && 'id' in unit ? unit.id : undefined
    const fact = { row: number, from, grade, arms, unitId: id }
    const other = facts.find((one) => one.from === from && contradicts(one, fact))
    if (other) wrong.push(`Row ${other.row} says something else of the same soldier on the same day.`)
    if (wrong.length > 0) faults.set(row, wrong)
    const leaves = left ?? (leftOn ? 'other' : undefined)
    if (leftOn === undefined) facts.push({ ...fact, left: leaves })
    else facts.push(fact, { row: number, from: leftOn, left: leaves })
  }
  return { facts: facts.sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0)), faults }
}

const contradicts = (one: Fact, other: Fact): boolean =>
  (['grade', 'arms', 'unitId'] as const).some((key) => {
    const [a, b] = [one[key], other[key]]
    return a !== undefined && b !== undefined && String(a) !== String(b)
  })

function formatChanges(
  rows: readonly Given<RosterItem>[],
  { changes }: SoldierPlan,
  soldier: KnownSoldier | undefined,
  renamed: boolean,
  units: UnitFinder,
  say: ReturnType<typeof verdictList>['say'],
): void {
  for (const [index, { rows: own }] of rows.entries()) {
    const made = changes.filter(({ row }) => row === own[0])
    const parts = made.map(({ change, before }) => {
      const { grade, arms, unitId, left, from } = change
      return [
        grade !== null && (before?.grade ? `grade ${before.grade} → ${grade}` : `grade ${grade}`),
        arms !== null && `arms ${arms.join(', ') || 'none'}`,
        unitId !== null && units.nameOf(unitId),
        left !== null && `left: ${left}`,
        `from ${from}`,
      ]
        .filter((part) => part !== false)
        .join(', ')
    })
    if (renamed && index === 0) parts.unshift(`name ${soldier!.familyName}, ${soldier!.givenName} is corrected`)
    const outcome = parts.length === 0 ? 'unchanged' : soldier ? 'changed' : 'added'
    say(own, outcome, rows[0]!.about, ...parts)
  }
}

async function store({ tx, note, progress }: Run, planned: readonly Planned[]): Promise<void> {
  await inParts(planned, TOGETHER, async (part, done) => {
    progress('soldiers', done, planned.length)
    await insertSoldiers(
      tx,
      part.filter(({ isNew }) => isNew).map(({ soldier }) => soldier),
    )
    await renameSoldiers(
      tx,
      part.filter(({ renamed }) => renamed).map(({ soldier }) => soldier),
    )
    const changed = part.filter(({ plan }) => plan.changes.length > 0)
    await insertChanges(
      tx,
      changed.flatMap(({ soldier, plan }) => plan.changes.map(({ change }) => ({ ...change, soldierId: soldier.id }))),
    )
    await replacePeriods(
      tx,
      changed.flatMap(({ soldier, plan }) => plan.periods.map((period) => ({ ...period, soldierId: soldier.id }))),
    )
    for (const { soldier, isNew, renamed, plan } of part) {
      if (!isNew && !renamed && plan.changes.length === 0) continue
      const action = isNew ? 'soldier.created' : 'soldier.changed'
      note({
        action,
        subject: { kind: 'soldier', id: soldier.id },
        after: { renamed, changes: plan.changes.map(({ change }) => change) },
      })
    }
  })
}
