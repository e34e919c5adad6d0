import { randomUUID } from 'node:crypto'
import { findPartialTo } from '../../../access/db/impartiality.db.ts'
import { NOT_IMPARTIAL } from '../../../access/services/require-impartial.ts'
import type { RosterItem } from '../../../contract/imports/import-items.ts'
import { planSoldier, type RosterRow, type SoldierPlan } from '../../../domain/import/plan-soldier.ts'
import {
  changesOf,
  insertChanges,
  insertSoldiers,
  type KnownSoldier,
  renameSoldiers,
  replacePeriods,
  soldiersByNumber,
} from '../../db/import-people.db.ts'
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
  for (const one of given) groups.set(one.item.rosterNumber, [...(groups.get(one.item.rosterNumber) ?? []), one])
  const known = await soldiersByNumber(run.tx, [...groups.keys()])
  await holdSoldiers(
    run,
    [...known.values()].map(({ id }) => id),
  )
  const changes = await changesOf(
    run.tx,
    [...known.values()].map(({ id }) => id),
  )
  const own = await partialAmong(
    run,
    [...known.values()].map(({ id }) => id),
  )
  const planned: Planned[] = []
  for (const [number, rows] of groups) {
    const soldier = known.get(number)
    const facts = await factsOf(rows, units, (row, why) => say([row], 'refused', about(rows), why))
    if (facts === null || facts.length === 0) {
      for (const row of rows)
        if (!verdicts.has(row.rows[0]!))
          say(row.rows, 'refused', about(rows), 'Another row about this soldier is refused.')
      continue
    }
    const names = namesOf(rows, soldier)
    const plan = planSoldier(changes.get(soldier?.id ?? '') ?? [], facts)
    const wrong =
      plan.wrong ??
      (soldier && own.has(soldier.id) && plan.changes.length > 0
        ? { row: rows[0]!.rows[0]!, detail: NOT_IMPARTIAL }
        : null) ??
      (names === null ? { row: rows[0]!.rows[0]!, detail: 'Somebody new needs a family name and a given name.' } : null)
    if (wrong !== null || names === null) {
      for (const row of rows) {
        const detail = row.rows[0] === wrong!.row ? wrong!.detail : `Row ${wrong!.row} about this soldier is refused.`
        say(row.rows, 'refused', about(rows), detail)
      }
      continue
    }
    const renamed =
      soldier !== undefined && (soldier.familyName !== names.familyName || soldier.givenName !== names.givenName)
    planned.push({
      soldier: { id: soldier?.id ?? randomUUID(), rosterNumber: number, ...names },
      renamed,
      isNew: !soldier,
      plan,
    })
    sayChanges(rows, plan, soldier, renamed, units, say)
  }
  await store(run, planned)
  const touched = planned.filter(({ isNew, plan }) => !isNew && plan.changes.length > 0)
  return { verdicts, disturbances: touched.map(({ soldier }) => ({ soldierId: soldier.id })), newUnits: units.added }
}

/** Whom of them whoever sends the file may change nothing about. */
async function partialAmong({ tx, note }: Run, ids: readonly string[]): Promise<ReadonlySet<string>> {
  return new Set(note.soldierId === null ? [] : await findPartialTo(tx, note.soldierId, ids))
}

const about = (rows: readonly Given<RosterItem>[]): string => {
  const { rosterNumber, familyName, givenName } = rows[0]!.item
  return [rosterNumber, [familyName, givenName].filter(Boolean).join(', ')].filter(Boolean).join(' ')
}

type Fact = RosterRow & { readonly row: number }

/** What the rows say, by day; null where one of them cannot be. */
async function factsOf(
  rows: readonly Given<RosterItem>[],
  units: UnitFinder,
  refuse: (row: number, why: string) => void,
): Promise<Fact[] | null> {
  const facts: Fact[] = []
  let sound = true
  for (const {
    rows: [row],
    item,
  } of rows) {
    const { from, grade, arms, left, leftOn, unit: named, unitId } = item
    const unit = named === undefined && unitId === undefined ? undefined : await units.find({ unit: named, unitId })
    const wrong =
      unit && 'wrong' in unit
        ? unit.wrong
        : left && !leftOn && unit
          ? 'A row says either which unit or that the soldier left. Give the day in "Left on", or empty the unit.'
          : leftOn && leftOn < from
            ? 'The soldier leaves before the day the row begins.'
            : null
    if (wrong !== null) {
      refuse(row!, wrong)
      sound = false
      continue
    }
    const id = unit && 'id' in unit ? unit.id : undefined
    const leaves = left ?? (leftOn ? 'other' : undefined)
    if (leftOn === undefined) facts.push({ row: row!, from, grade, arms, unitId: id, left: leaves })
    else facts.push({ row: row!, from, grade, arms, unitId: id }, { row: row!, from: leftOn, left: leaves })
  }
  return sound ? facts.sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0)) : null
}

function namesOf(rows: readonly Given<RosterItem>[], soldier: KnownSoldier | undefined) {
  const last = <Key extends 'familyName' | 'givenName'>(key: Key) =>
    rows.map(({ item }) => item[key]).findLast((name) => name !== undefined) ?? soldier?.[key]
  const [familyName, givenName] = [last('familyName'), last('givenName')]
  return familyName === undefined || givenName === undefined ? null : { familyName, givenName }
}

function sayChanges(
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
    say(own, outcome, about(rows), ...parts)
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
