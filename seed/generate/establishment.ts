/** Grades of the demo unit, soldiers first, then NCOs, then officers, each from the lowest up. */
export type Grade = (typeof GRADES)[number]

const SOLDIERS = ['PVT', 'PFC', 'SPC'] as const
const NCOS = ['CPL', 'SGT', 'SSG', 'SFC', 'MSG', '1SG', 'SGM'] as const
const OFFICERS = ['2LT', '1LT', 'CPT', 'MAJ', 'LTC'] as const
const GRADES = [...SOLDIERS, ...NCOS, ...OFFICERS] as const

export type Arm = 'saber' | 'sword' | 'rifle'

/** What a grade carries: officers the saber, NCOs the sword, everyone the rifle. */
export function armsOf(grade: Grade): Arm[] {
  if ((OFFICERS as readonly string[]).includes(grade)) return ['saber', 'rifle']
  if ((NCOS as readonly string[]).includes(grade)) return ['sword', 'rifle']
  return ['rifle']
}

/** A unit of the tree before it has an id: units name each other by key. Parents come before what is below them. */
export interface PlannedUnit {
  key: string
  name: string
  kind: 'unit' | 'company' | 'platoon'
  parentKey: string | null
  timeZone: string | null
}

export type Duty =
  | 'battalion commander'
  | 'executive officer'
  | 'staff officer'
  | 'command sergeant'
  | 'training officer'
  | 'training sergeant'
  | 'staff'
  | 'company commander'
  | 'first sergeant'
  | 'platoon leader'
  | 'platoon sergeant'
  | 'squad leader'
  | 'team leader'
  | 'in the ranks'

/** One place to be filled: where, with which grade, as what. */
export interface Billet {
  unitKey: string
  grade: Grade
  duty: Duty
}

const COMPANIES = ['a', 'b', 'c']
const PLATOONS = ['1st', '2nd', '3rd', '4th']

/** The platoons of a company, by key: `a-1` to `a-4` for `a`. */
export const platoonKeys = (company: string): string[] => PLATOONS.map((_, index) => `${company}-${index + 1}`)

const BATTALION: readonly [Grade, Duty][] = [
  ['LTC', 'battalion commander'],
  ['MAJ', 'executive officer'],
  ['CPT', 'staff officer'],
  ['CPT', 'training officer'],
  ['1LT', 'staff officer'],
  ['SGM', 'command sergeant'],
  ['MSG', 'training sergeant'],
  ['SFC', 'training sergeant'],
  ['SSG', 'training sergeant'],
  ['SGT', 'staff'],
  ['SPC', 'staff'],
]

const COMPANY: readonly [Grade, Duty][] = [
  ['CPT', 'company commander'],
  ['1LT', 'executive officer'],
  ['1SG', 'first sergeant'],
  ['SGT', 'staff'],
  ['SPC', 'staff'],
]

const times = (count: number, grade: Grade, duty: Duty): [Grade, Duty][] =>
  Array.from({ length: count }, () => [grade, duty])

/** The leader's and the sergeant's grade differ from platoon to platoon; the rest is the same everywhere. */
const platoon = (index: number): [Grade, Duty][] => [
  [index % 2 === 0 ? '2LT' : '1LT', 'platoon leader'],
  [index % 4 === 3 ? 'SSG' : 'SFC', 'platoon sergeant'],
  ...times(4, 'SSG', 'squad leader'),
  ...times(5, 'SGT', 'team leader'),
  ...times(3, 'CPL', 'team leader'),
  ...times(6, 'SPC', 'in the ranks'),
  ...times(5, 'PFC', 'in the ranks'),
  ...times(3, 'PVT', 'in the ranks'),
]

const billetsIn = (unitKey: string, places: readonly [Grade, Duty][]): Billet[] =>
  places.map(([grade, duty]) => ({ unitKey, grade, duty }))

/** Where the demo unit is. */
export const DEMO_ZONE = 'America/New_York'

/** The tree of the Calloway Point Ceremonial Battalion, an invented unit. */
export const UNITS: readonly PlannedUnit[] = [
  {
    key: 'battalion',
    name: 'Calloway Point Ceremonial Battalion',
    kind: 'unit',
    parentKey: null,
    timeZone: DEMO_ZONE,
  },
  { key: 'hq', name: 'Battalion Headquarters', kind: 'unit', parentKey: 'battalion', timeZone: null },
  ...COMPANIES.flatMap((company): PlannedUnit[] => [
    {
      key: company,
      name: `${company.toUpperCase()} Company`,
      kind: 'company',
      parentKey: 'battalion',
      timeZone: null,
    },
    ...platoonKeys(company).map(
      (key, index): PlannedUnit => ({
        key,
        name: `${PLATOONS[index]} Platoon`,
        kind: 'platoon',
        parentKey: company,
        timeZone: null,
      }),
    ),
  ]),
]

/** The key of the company a unit is or belongs to; null for the battalion and its headquarters. */
export function companyOf(unitKey: string): string | null {
  if (COMPANIES.includes(unitKey)) return unitKey
  return COMPANIES.find((company) => platoonKeys(company).includes(unitKey)) ?? null
}

/** Every place of the battalion: 11 in its headquarters, 5 in each company's, 28 in each platoon; 362 in all. */
export const BILLETS: readonly Billet[] = [
  ...billetsIn('hq', BATTALION),
  ...COMPANIES.flatMap((company) => [
    ...billetsIn(company, COMPANY),
    ...platoonKeys(company).flatMap((key, index) => billetsIn(key, platoon(index))),
  ]),
]
