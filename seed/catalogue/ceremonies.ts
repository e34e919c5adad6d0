import type { CeremonyBody } from '../../server/contract/ceremonies/ceremonies.ts'

type Post = Omit<CeremonyBody['posts'][number], 'soldierId'>

/** A ceremony that comes again and again; the loader gives it a day and a unit that mans it. */
export interface CeremonyPattern {
  title: string
  place: string
  mannedBy: 'battalion' | 'company'
  /** Local time of day, HH:MM. */
  startsAt: string
  minutes: number
  /** Those named report so many minutes before the start. */
  reportMinutes: number
  notes: string
  /** So many days before; local time of day. */
  rehearsals: { daysBefore: number; startsAt: string; minutes: number; place: string }[]
  posts: Post[]
}

type Certification = 'saber' | 'sword' | 'rifle'

/** A rank as it forms up, from its right: titles, all with one certification and the same grades. */
const rank = (row: number, firstPlace: number, certification: Certification, grades: string[], titles: string[]) =>
  titles.map((title, index): Post => {
    const where = { title, row, place: firstPlace + index }
    return { ...where, certification, arm: certification, grades, minHeightCm: null, maxHeightCm: null }
  })

/** Posts that shall look alike: of a height between these, in centimetres. */
const between = (minHeightCm: number, maxHeightCm: number, posts: Post[]): Post[] =>
  posts.map((post) => ({ ...post, minHeightCm, maxHeightCm }))

const rehearsal = (daysBefore: number, startsAt: string, minutes: number, place: string) => [
  { daysBefore, startsAt, minutes, place },
]

const numbered = (title: string, first: number, last: number): string[] =>
  Array.from({ length: last - first + 1 }, (_, index) => `${title} ${first + index}`)

const COMMANDERS = ['CPT', 'MAJ']
const LIEUTENANTS = ['2LT', '1LT']
const STAFF = ['1LT', 'CPT']
const PLATOON_SERGEANTS = ['SSG', 'SFC']
const FIRST_SERGEANTS = ['MSG', '1SG']
const COLOUR_BEARERS = ['SGT', 'SSG']
const IN_THE_RANKS = ['PVT', 'PFC', 'SPC', 'CPL']

const colours = (row: number): Post[] => [
  ...rank(row, 1, 'rifle', IN_THE_RANKS, ['Colours, right guard']),
  ...rank(row, 2, 'sword', COLOUR_BEARERS, ['National colours', 'Unit colours']),
  ...rank(row, 4, 'rifle', IN_THE_RANKS, ['Colours, left guard']),
]

const platoon = (row: number, firstPlace: number, name: string): Post[] => [
  ...rank(row, firstPlace, 'saber', LIEUTENANTS, [`${name} Platoon leader`]),
  ...rank(row, firstPlace + 1, 'sword', PLATOON_SERGEANTS, [`${name} Platoon sergeant`]),
]

/** Ceremonies of the demo unit, every one invented. Row 1 is in front; places count from the right of the rank. */
export const ceremonies: readonly CeremonyPattern[] = [
  {
    title: 'Founders’ Parade',
    place: 'Parade field',
    mannedBy: 'battalion',
    startsAt: '10:00',
    minutes: 75,
    reportMinutes: 60,
    notes: 'Ceremonial uniform with white gloves. Arms are drawn from 08:30.',
    rehearsals: [...rehearsal(7, '10:00', 120, 'Parade field'), ...rehearsal(1, '13:00', 90, 'Parade field')],
    posts: [
      ...rank(1, 1, 'saber', COMMANDERS, ['Commander of troops']),
      ...colours(2),
      ...platoon(3, 1, '1st'),
      ...platoon(3, 3, '2nd'),
      ...platoon(3, 5, '3rd'),
    ],
  },
  {
    title: 'Change of Command',
    place: 'Parade field',
    mannedBy: 'battalion',
    startsAt: '09:00',
    minutes: 90,
    reportMinutes: 60,
    notes: 'Ceremonial uniform with white gloves. Water is at the reviewing stand.',
    rehearsals: [...rehearsal(7, '10:30', 120, 'Parade field'), ...rehearsal(1, '09:00', 90, 'Parade field')],
    posts: [
      ...rank(1, 1, 'saber', COMMANDERS, ['Commander of troops']),
      ...rank(2, 1, 'saber', STAFF, ['Adjutant', 'Staff officer, right', 'Staff officer, left']),
      ...colours(3),
      ...rank(4, 1, 'saber', ['CPT'], ['A Company commander', 'B Company commander', 'C Company commander']),
      ...rank(5, 1, 'sword', FIRST_SERGEANTS, [
        'A Company first sergeant',
        'B Company first sergeant',
        'C Company first sergeant',
      ]),
    ],
  },
  {
    title: 'Retirement Review',
    place: 'Drill hall',
    mannedBy: 'battalion',
    startsAt: '14:00',
    minutes: 60,
    reportMinutes: 45,
    notes: 'Ceremonial uniform. Indoors: no cleats on the boots.',
    rehearsals: rehearsal(1, '15:00', 60, 'Drill hall'),
    posts: [
      ...rank(1, 1, 'saber', ['CPT'], ['Commander of troops']),
      ...rank(2, 1, 'saber', STAFF, ['Adjutant']),
      ...colours(3),
      ...rank(4, 1, 'sword', PLATOON_SERGEANTS, numbered('Platoon sergeant', 1, 3)),
    ],
  },
  {
    title: 'Arrival Honors',
    place: 'Headquarters steps',
    mannedBy: 'company',
    startsAt: '11:00',
    minutes: 30,
    reportMinutes: 60,
    notes: 'Ceremonial uniform; overcoats if it is below 5 degrees.',
    rehearsals: rehearsal(2, '14:00', 60, 'Headquarters steps'),
    posts: [
      ...rank(1, 1, 'saber', [...LIEUTENANTS, 'CPT'], ['Officer in charge']),
      ...rank(1, 2, 'sword', PLATOON_SERGEANTS, ['Sergeant in charge']),
      ...between(165, 190, rank(2, 1, 'rifle', IN_THE_RANKS, numbered('Cordon, right', 1, 5))),
      ...between(165, 190, rank(3, 1, 'rifle', IN_THE_RANKS, numbered('Cordon, left', 1, 5))),
    ],
  },
  {
    title: 'Wreath Laying',
    place: 'Memorial garden',
    mannedBy: 'company',
    startsAt: '11:00',
    minutes: 40,
    reportMinutes: 45,
    notes: 'Ceremonial uniform, mourning band.',
    rehearsals: rehearsal(1, '11:00', 45, 'Memorial garden'),
    posts: [
      ...rank(1, 1, 'saber', LIEUTENANTS, ['Officer in charge']),
      ...rank(2, 1, 'sword', ['SGT', ...PLATOON_SERGEANTS], ['Sergeant of the detail', 'Escort of the wreath']),
      ...rank(3, 1, 'rifle', IN_THE_RANKS, numbered('Sentry', 1, 4)),
    ],
  },
  {
    title: 'Evening Retreat',
    place: 'Flagpole lawn',
    mannedBy: 'company',
    startsAt: '17:00',
    minutes: 30,
    reportMinutes: 30,
    notes: '',
    rehearsals: [],
    posts: [
      ...rank(1, 1, 'saber', LIEUTENANTS, ['Officer of the retreat']),
      ...rank(2, 1, 'sword', ['SGT', 'SSG'], ['Sergeant of the detail']),
      ...rank(3, 1, 'rifle', IN_THE_RANKS, numbered('Honor guard', 1, 4)),
    ],
  },
  {
    title: 'Memorial Service',
    place: 'Chapel lawn',
    mannedBy: 'battalion',
    startsAt: '13:00',
    minutes: 60,
    reportMinutes: 60,
    notes: 'Ceremonial uniform. Blank rounds are issued by the firing party’s leader alone.',
    rehearsals: rehearsal(2, '13:00', 60, 'Chapel lawn'),
    posts: [
      ...rank(1, 1, 'saber', STAFF, ['Officer in charge']),
      ...rank(2, 1, 'sword', PLATOON_SERGEANTS, ['Sergeant of the detail', 'Leader of the firing party']),
      ...between(165, 190, rank(3, 1, 'rifle', IN_THE_RANKS, numbered('Firing party', 1, 7))),
    ],
  },
  {
    title: 'Arch of Sabers',
    place: 'Garden pavilion',
    mannedBy: 'battalion',
    startsAt: '15:00',
    minutes: 45,
    reportMinutes: 45,
    notes: 'Ceremonial uniform with white gloves.',
    rehearsals: rehearsal(1, '16:00', 45, 'Garden pavilion'),
    posts: [
      ...rank(1, 1, 'saber', [...LIEUTENANTS, 'CPT'], numbered('Arch, right', 1, 4)),
      ...rank(2, 1, 'saber', [...LIEUTENANTS, 'CPT'], numbered('Arch, left', 1, 4)),
    ],
  },
]
