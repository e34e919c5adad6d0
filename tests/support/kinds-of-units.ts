import type { z } from 'zod'
import type { ArmsAndGradesBody } from '../../server/contract/arms-and-grades/arms-and-grades.ts'
import type { SheetBody } from '../../server/contract/sheets/sheets.ts'
import type { UnitLevel } from '../../server/contract/soldiers/levels.ts'
import type { CertificationBody } from '../../server/contract/standards/certifications.ts'
import type { StandardBody } from '../../server/contract/standards/standards.ts'

type Lists = Pick<ArmsAndGradesBody, 'grades' | 'arms'>

/** A unit as it would describe itself: its own words, lists, standard, terms, and a sheet that is just enough. */
export interface KindOfUnit {
  readonly what: string
  readonly levels: readonly UnitLevel[]
  readonly lists: Lists
  readonly standard: z.input<typeof StandardBody> & { code: string; minors: { code: string; title: string }[] }
  readonly terms: z.input<typeof CertificationBody>
  /** What the candidate carries, and is tested with. */
  readonly carries: string | null
  readonly just: Pick<z.input<typeof SheetBody>, 'majors' | 'minors'>
  /** One trial less correct: it fails. */
  readonly notQuite: Pick<z.input<typeof SheetBody>, 'majors' | 'minors'>
}

const level = (code: string, one: string, many: string, compared = false): UnitLevel => ({ code, one, many, compared })
const grade = (code: string, name: string, officer = false) => ({ code, name, officer, confirmed: true })
const arm = (code: string, name: string) => ({ code, name, confirmed: true })
const marked = (codes: readonly string[], trials: readonly ('correct' | 'incorrect')[]) =>
  codes.map((code) => ({ code, trials: [...trials] }))

const DRILL = ['port-to-inspection', 'spin-and-catch', 'exchange']
export const DRILL_TEAM: KindOfUnit = {
  what: 'a rifle drill team with five trials and three needed',
  levels: [level('unit', 'team', 'teams', true), level('line', 'line', 'lines')],
  lists: {
    grades: [grade('MBR', 'Member'), grade('LDR', 'Line leader'), grade('CDR', 'Commander', true)],
    arms: [arm('rifle', 'Drill rifle')],
  },
  standard: {
    code: 'exhibition',
    title: 'Exhibition drill',
    arms: ['rifle'],
    rule: { trials: 5, needed: 3, percent: '100' },
    majors: [{ code: 'safety', title: 'Safety', faults: [{ code: 'muzzle', title: 'Muzzle toward somebody' }] }],
    minors: DRILL.map((code) => ({
      code,
      title: code.replaceAll('-', ' '),
      faults: [{ code: 'dropped', title: 'Rifle dropped' }],
    })),
    effectiveFrom: '2026-01-01',
  },
  terms: {
    code: 'exhibition',
    title: 'Exhibition',
    standards: ['exhibition'],
    arms: ['rifle'],
    effectiveFrom: '2026-01-01',
  },
  carries: 'rifle',
  just: {
    majors: [{ code: 'safety', mark: 'GO' }],
    minors: marked(DRILL, ['incorrect', 'correct', 'incorrect', 'correct', 'correct']),
  },
  notQuite: {
    majors: [{ code: 'safety', mark: 'GO' }],
    minors: marked(DRILL, ['incorrect', 'correct', 'incorrect', 'correct', 'incorrect']),
  },
}

const COLOURS = ['present-the-colours', 'order-the-colours', 'case-the-colours']
export const COLOUR_GUARD: KindOfUnit = {
  what: 'a colour guard with no blades',
  levels: [level('unit', 'guard', 'guards'), level('detail', 'detail', 'details', true)],
  lists: {
    grades: [grade('CDT', 'Cadet'), grade('SGT', 'Cadet sergeant')],
    arms: [arm('national-colour', 'National colour'), arm('unit-colour', 'Unit colour'), arm('rifle', 'Rifle')],
  },
  standard: {
    code: 'colours',
    title: 'Colours',
    arms: ['national-colour', 'unit-colour', 'rifle'],
    minors: COLOURS.map((code) => ({ code, title: code.replaceAll('-', ' ') })),
    calls: COLOURS.flatMap((measure) =>
      [1, 2, 3].map((trial) => ({
        measure,
        trial,
        preparatory: 'Present',
        execution: { 'national-colour': 'COLORS (stays upright)', 'unit-colour': 'COLORS (dips)', rifle: 'ARMS' },
      })),
    ),
    effectiveFrom: '2026-01-01',
  },
  terms: {
    code: 'colours',
    title: 'Colours',
    standards: ['colours'],
    arms: ['national-colour', 'unit-colour'],
    effectiveFrom: '2026-01-01',
  },
  carries: 'unit-colour',
  just: { majors: [], minors: marked(COLOURS, ['incorrect', 'correct', 'correct']) },
  notQuite: { majors: [], minors: marked(COLOURS, ['incorrect', 'correct', 'incorrect']) },
}

const WATCH = ['slow-salute', 'relief-of-the-watch', 'fold-of-the-flag', 'last-alarm']
export const FIRE_SERVICE: KindOfUnit = {
  what: 'a fire service’s honor guard without arms',
  levels: [level('unit', 'department', 'departments'), level('station', 'station', 'stations', true)],
  lists: {
    grades: [grade('FF', 'Firefighter'), grade('ENG', 'Engineer'), grade('LT', 'Lieutenant', true)],
    arms: [],
  },
  standard: {
    code: 'casket-watch',
    title: 'Casket watch and last alarm',
    rule: { trials: 2, needed: 1, percent: '75' },
    minors: WATCH.map((code) => ({ code, title: code.replaceAll('-', ' ') })),
    effectiveFrom: '2026-01-01',
  },
  terms: { code: 'watch', title: 'Casket watch', standards: ['casket-watch'], effectiveFrom: '2026-01-01' },
  carries: null,
  just: {
    majors: [],
    minors: [
      ...marked(WATCH.slice(0, 3), ['incorrect', 'correct']),
      ...marked(WATCH.slice(3), ['incorrect', 'incorrect']),
    ],
  },
  notQuite: {
    majors: [],
    minors: [
      ...marked(WATCH.slice(0, 2), ['incorrect', 'correct']),
      ...marked(WATCH.slice(2), ['incorrect', 'incorrect']),
    ],
  },
}

export const KINDS = [DRILL_TEAM, COLOUR_GUARD, FIRE_SERVICE] as const
