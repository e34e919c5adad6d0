import { createNames } from '../../../seed/generate/names.ts'
import type { Random } from '../../../seed/generate/random.ts'
import { addDays, daysBetween, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import {
  type SoldierChange,
  type SoldierPeriod,
  soldierPeriods,
} from '../../../server/domain/people/soldier-periods.ts'
import type { RecordSize } from '../record-size.ts'
import { uuid } from './uuid.ts'

const COMPANIES = 3
const PLATOONS = 4
const PLATOON_STRENGTH = 25
const DAYS_A_GRADE = 900

const LADDERS = { saber: ['2LT', '1LT', 'CPT'], sword: ['CPL', 'SGT', 'SSG', 'SFC'] } as const

export interface BenchUnit {
  readonly id: string
  readonly name: string
  readonly kind: 'unit' | 'company' | 'platoon'
  readonly parent_id: string | null
  readonly time_zone: string | null
}

export interface BenchSoldier {
  readonly id: string
  readonly rosterNumber: string
  readonly familyName: string
  readonly givenName: string
  readonly battalion: number
  /** A head sponsors the sponsors and is certified from paper; a sponsor coaches candidates; a grader is appointed. */
  readonly role: 'head' | 'sponsor' | 'grader' | 'candidate'
  readonly arm: 'saber' | 'sword'
  /** Log-odds of a correct trial of a measure of middling difficulty. */
  readonly skill: number
  readonly joined: PlainDate
  readonly changes: readonly SoldierChange[]
  readonly periods: readonly SoldierPeriod[]
  readonly sponsorships: readonly { sponsorId: string; from: PlainDate; to: PlainDate | null }[]
}

type Names = ReturnType<typeof createNames>

export interface Establishment {
  readonly units: readonly BenchUnit[]
  /** Ids by battalion. */
  readonly battalions: readonly string[]
  readonly platoons: readonly (readonly string[])[]
  readonly soldiers: readonly BenchSoldier[]
}

/**
 * A brigade of battalions of 300: three companies of four platoons, and in each platoon an officer and two sponsors, in
 * every other one a grader; two heads a battalion. Promotions come every two and a half years, and once in the record
 * two neighbouring platoons exchange a soldier.
 */
export function makeEstablishment(
  random: Random,
  size: RecordSize,
  span: { from: PlainDate; to: PlainDate },
): Establishment {
  const brigade: BenchUnit = {
    id: uuid(random),
    name: 'Brigade',
    kind: 'unit',
    parent_id: null,
    time_zone: 'America/New_York',
  }
  const units = [brigade]
  const below = (name: string, kind: BenchUnit['kind'], parent_id: string): string => {
    const unit = { id: uuid(random), name, kind, parent_id, time_zone: null }
    units.push(unit)
    return unit.id
  }
  const names = namesWithoutEnd(random)
  const battalions: string[] = []
  const platoons: string[][] = []
  const soldiers: BenchSoldier[] = []
  for (let battalion = 0; battalion < size.battalions; battalion++) {
    const id = below(`Battalion ${battalion + 1}`, 'unit', brigade.id)
    battalions.push(id)
    platoons.push([])
    for (let company = 0; company < COMPANIES; company++) {
      const companyId = below(`Company ${company + 1} of ${battalion + 1}`, 'company', id)
      for (let platoon = 0; platoon < PLATOONS; platoon++) {
        platoons[battalion]!.push(
          below(`Platoon ${platoon + 1} of ${company + 1}/${battalion + 1}`, 'platoon', companyId),
        )
      }
    }
    soldiers.push(...fillBattalion(random, names, battalion, platoons[battalion]!, span))
  }
  return { units, battalions, platoons, soldiers }
}

/** So many names a source gives at least; after them everybody has a second family name, another one each time. */
const NAMES_A_SOURCE = 40_000

function namesWithoutEnd(random: Random): Names {
  let source = createNames(random)
  let second = ''
  let given = 0
  return () => {
    if (given > 0 && given % NAMES_A_SOURCE === 0) {
      source = createNames(random)
      second = `${second}-${source().familyName}`
    }
    given += 1
    const { familyName, givenName } = source()
    return { familyName: `${familyName}${second}`, givenName }
  }
}

function fillBattalion(
  random: Random,
  names: Names,
  battalion: number,
  platoons: readonly string[],
  span: { from: PlainDate; to: PlainDate },
): BenchSoldier[] {
  const ids = platoons.map(() => Array.from({ length: PLATOON_STRENGTH }, () => uuid(random)))
  const heads = [ids[0]![4]!, ids[6]![4]!]
  const middle = addDays(span.from, Math.floor(daysBetween(span.from, span.to) / 2))
  return platoons.flatMap((unitId, platoon) =>
    ids[platoon]!.map((id, place): BenchSoldier => {
      const role = heads.includes(id)
        ? 'head'
        : place === 1 || place === 2
          ? 'sponsor'
          : place === 3 && platoon % 2 === 0
            ? 'grader'
            : 'candidate'
      const arm = place === 0 ? 'saber' : 'sword'
      const joined = addDays(span.from, -random.integer(30, 400))
      const other = platoons[platoon % 2 === 0 ? platoon + 1 : platoon - 1]!
      const move = place === PLATOON_STRENGTH - 1 ? { from: middle, unitId: other } : null
      const changes = changesOf(arm, joined, span.to, unitId, move)
      const sponsors = [ids[platoon]![1]!, ids[platoon]![2]!]
      return {
        id,
        rosterNumber: `${battalion + 1}${String(platoon * PLATOON_STRENGTH + place + 1).padStart(4, '0')}`,
        ...names(),
        battalion,
        role,
        arm,
        skill: random.normal(role === 'sponsor' ? 2.4 : 1.6, 0.5),
        joined,
        changes,
        periods: soldierPeriods(changes),
        sponsorships: sponsorshipsOf(
          role,
          joined,
          middle,
          role === 'sponsor' ? [heads[platoon % 2]!] : sponsors,
          place,
        ),
      }
    }),
  )
}

function changesOf(
  arm: BenchSoldier['arm'],
  joined: PlainDate,
  to: PlainDate,
  unitId: string,
  move: { from: PlainDate; unitId: string } | null,
): SoldierChange[] {
  const [lowest, ...higher] = LADDERS[arm]
  const none = { grade: null, arms: null, unitId: null, left: null }
  const promotions = higher
    .map((grade, step) => ({ ...none, from: addDays(joined, (step + 1) * DAYS_A_GRADE), grade }))
    .filter(({ from }) => from <= to)
  return [
    { ...none, from: joined, grade: lowest, arms: [arm, 'rifle'], unitId },
    ...promotions,
    ...(move ? [{ ...none, ...move }] : []),
  ].map((change, entry) => ({ ...change, entry }))
}

/** One sponsor for good, or for every other soldier a second one from the middle of the record on. */
function sponsorshipsOf(
  role: BenchSoldier['role'],
  from: PlainDate,
  middle: PlainDate,
  sponsors: readonly string[],
  place: number,
): BenchSoldier['sponsorships'] {
  if (role === 'head') return []
  const first = sponsors[place % sponsors.length]!
  const second = sponsors[(place + 1) % sponsors.length]!
  if (first === second || Math.floor(place / 2) % 2 === 0) return [{ sponsorId: first, from, to: null }]
  return [
    { sponsorId: first, from, to: addDays(middle, -1) },
    { sponsorId: second, from: middle, to: null },
  ]
}
