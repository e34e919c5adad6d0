import type { Approval, AwardDecision, CarriedAward, Extension, Suspension } from '../../server/domain/certification/types.ts'

/** What is expected of a day: the status, and award and last day where there is one to tell. */
type Expected = readonly [day: string, status: string, awardedOn?: string, validThrough?: string]

export interface WordsCase {
  readonly name: string
  /** One standard, unless told otherwise. */
  readonly standards?: readonly string[]
  readonly approval?: Approval
  /** Terms that begin later, with another approval. */
  readonly later?: readonly [effectiveFrom: string, approval: Approval]
  readonly windowDays?: number
  /** Sheets by letter, in order: `GO standing 2026-01-10`. */
  readonly sheets: Readonly<Record<string, string>>
  readonly carried?: readonly CarriedAward[]
  readonly decisions?: readonly AwardDecision[]
  readonly extensions?: readonly Extension[]
  readonly suspensions?: readonly Suspension[]
  readonly withdrawals?: readonly string[]
  readonly expected: readonly Expected[]
  /** Numbers of attempts by sheet, where they are what the case is about. */
  readonly attempts?: Readonly<Record<string, number>>
}

const approve = (sheetId: string, on: string): AwardDecision => ({ sheetId, decision: 'approve', on })
const refuse = (sheetId: string, on: string): AwardDecision => ({ sheetId, decision: 'refuse', on })
const TWO = ['standing', 'marching']
const CARRIED: CarriedAward = { id: 'paper', awardedOn: '2025-06-01', validThrough: '2026-05-31', entry: 1 }

/**
 * Worked out by hand from server/domain/certification/README.md: validity twelve months, a GO kept ninety days. Not a case
 * of it comes from the code.
 */
export const WORDS_CASES: readonly WordsCase[] = [
  {
    name: 'terms that ask for nothing take no notice of decisions',
    sheets: { a: 'GO standing 2026-01-10' },
    decisions: [refuse('a', '2026-01-12')],
    expected: [['2026-01-10', 'certified', '2026-01-10', '2027-01-10']],
  },
  {
    name: 'an award waits from its day on',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10' },
    expected: [
      ['2026-01-09', 'no test yet'],
      ['2026-01-10', 'awaiting approval'],
      ['2026-06-01', 'awaiting approval'],
    ],
  },
  {
    name: 'it waits beyond its last day, until somebody decides',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10' },
    expected: [
      ['2027-01-10', 'awaiting approval'],
      ['2027-01-11', 'awaiting approval'],
    ],
  },
  {
    name: 'signed, it is in force from the day of signing, its last day counted from the award',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10' },
    decisions: [approve('a', '2026-01-20')],
    expected: [
      ['2026-01-19', 'awaiting approval'],
      ['2026-01-20', 'certified', '2026-01-10', '2027-01-10'],
      ['2027-01-10', 'certified', '2026-01-10', '2027-01-10'],
      ['2027-01-11', 'lapsed', '2026-01-10', '2027-01-10'],
    ],
  },
  {
    name: 'signed under terms that reach back, it is in force from the award',
    approval: 'required-from-award',
    sheets: { a: 'GO standing 2026-01-10' },
    decisions: [approve('a', '2026-01-20')],
    expected: [
      ['2026-01-09', 'no test yet'],
      ['2026-01-10', 'certified', '2026-01-10', '2027-01-10'],
      ['2026-01-19', 'certified', '2026-01-10', '2027-01-10'],
    ],
  },
  {
    name: 'not signed under terms that reach back, it waits',
    approval: 'required-from-award',
    sheets: { a: 'GO standing 2026-01-10' },
    expected: [['2026-01-10', 'awaiting approval']],
  },
  {
    name: 'signed on the day of the award',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10' },
    decisions: [approve('a', '2026-01-10')],
    expected: [['2026-01-10', 'certified', '2026-01-10', '2027-01-10']],
  },
  {
    name: 'an approval of an earlier day than the award, which an amendment moved, counts from the award on',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-30' },
    decisions: [approve('a', '2026-01-20')],
    expected: [
      ['2026-01-29', 'no test yet'],
      ['2026-01-30', 'certified', '2026-01-30', '2027-01-30'],
    ],
  },
  {
    name: 'signed after its last day it is in force on no day',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10' },
    decisions: [approve('a', '2027-02-01')],
    expected: [
      ['2027-01-31', 'awaiting approval'],
      ['2027-02-01', 'lapsed', '2026-01-10', '2027-01-10'],
    ],
  },
  {
    name: 'signed on its last day it is in force for that day',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10' },
    decisions: [approve('a', '2027-01-10')],
    expected: [
      ['2027-01-09', 'awaiting approval'],
      ['2027-01-10', 'certified', '2026-01-10', '2027-01-10'],
      ['2027-01-11', 'lapsed', '2026-01-10', '2027-01-10'],
    ],
  },
  {
    name: 'a decision about a sheet that makes no award is about nothing',
    approval: 'required',
    standards: TWO,
    sheets: { a: 'GO standing 2026-01-10' },
    decisions: [approve('a', '2026-01-11')],
    expected: [['2026-01-11', 'part way']],
  },
  {
    name: 'the award is that of the sheet that completes the standards',
    approval: 'required',
    standards: TWO,
    sheets: { a: 'GO standing 2026-01-10', b: 'GO marching 2026-01-15' },
    decisions: [approve('a', '2026-01-11'), approve('b', '2026-01-17')],
    expected: [
      ['2026-01-14', 'part way'],
      ['2026-01-15', 'awaiting approval'],
      ['2026-01-17', 'certified', '2026-01-15', '2027-01-15'],
    ],
  },
  {
    name: 'what waits has used up the kept GOs',
    approval: 'required',
    standards: TWO,
    sheets: { a: 'GO standing 2026-01-10', b: 'GO marching 2026-01-15', c: 'GO standing 2026-01-25' },
    expected: [['2026-01-25', 'awaiting approval']],
    attempts: { a: 1, b: 1, c: 1 },
  },
  {
    name: 'what waits numbers attempts anew and hides the retest that is open',
    approval: 'required',
    sheets: { a: 'NO-GO standing 2026-01-05', b: 'GO standing 2026-01-15', c: 'NO-GO standing 2026-02-01' },
    expected: [
      ['2026-01-05', 'retest due'],
      ['2026-01-15', 'awaiting approval'],
      ['2026-02-01', 'awaiting approval'],
    ],
    attempts: { a: 1, b: 2, c: 1 },
  },
  {
    name: 'refused, it was never made: a GO that is kept',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10' },
    decisions: [refuse('a', '2026-01-20')],
    expected: [
      ['2026-01-10', 'part way'],
      ['2026-01-20', 'part way'],
      ['2026-04-10', 'part way'],
      ['2026-04-11', 'no test yet'],
    ],
  },
  {
    name: 'refused, the next GO within the window makes an award, which waits again',
    approval: 'required',
    standards: TWO,
    sheets: { a: 'GO standing 2026-01-10', b: 'GO marching 2026-01-15', c: 'GO standing 2026-02-01' },
    decisions: [refuse('b', '2026-01-20')],
    expected: [
      ['2026-01-31', 'part way'],
      ['2026-02-01', 'awaiting approval'],
    ],
    attempts: { a: 1, b: 1, c: 2 },
  },
  {
    name: 'refused, a NO-GO drops the GO of its standard',
    approval: 'required',
    standards: TWO,
    sheets: { a: 'GO standing 2026-01-10', b: 'GO marching 2026-01-15', c: 'NO-GO standing 2026-02-01' },
    decisions: [refuse('b', '2026-01-20')],
    expected: [['2026-02-01', 'retest due']],
  },
  {
    name: 'refused, what came out of the window is not completed',
    approval: 'required',
    standards: TWO,
    windowDays: 30,
    sheets: { a: 'GO standing 2026-01-10', b: 'GO marching 2026-01-15', c: 'GO marching 2026-02-10' },
    decisions: [refuse('b', '2026-01-20')],
    expected: [['2026-02-10', 'part way']],
  },
  {
    name: 'the certification before it holds while a renewal waits',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10', b: 'GO standing 2026-12-20' },
    decisions: [approve('a', '2026-01-10')],
    expected: [
      ['2026-12-20', 'certified', '2026-01-10', '2027-01-10'],
      ['2027-01-10', 'certified', '2026-01-10', '2027-01-10'],
      ['2027-01-11', 'awaiting approval', '2026-01-10', '2027-01-10'],
    ],
  },
  {
    name: 'a renewal that is signed takes the place of the one before it',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10', b: 'GO standing 2026-12-20' },
    decisions: [approve('a', '2026-01-10'), approve('b', '2027-01-15')],
    expected: [
      ['2027-01-10', 'certified', '2026-01-10', '2027-01-10'],
      ['2027-01-14', 'awaiting approval', '2026-01-10', '2027-01-10'],
      ['2027-01-15', 'certified', '2026-12-20', '2027-12-20'],
    ],
  },
  {
    name: 'a renewal that is refused leaves the one before it',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10', b: 'GO standing 2026-12-20' },
    decisions: [approve('a', '2026-01-10'), refuse('b', '2026-12-22')],
    expected: [
      ['2027-01-10', 'certified', '2026-01-10', '2027-01-10'],
      ['2027-01-11', 'part way', '2026-01-10', '2027-01-10'],
      ['2027-03-21', 'lapsed', '2026-01-10', '2027-01-10'],
    ],
  },
  {
    name: 'of two that wait, either may be signed; the latest made that is in force counts',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10', b: 'GO standing 2026-05-10' },
    decisions: [approve('a', '2026-06-01'), approve('b', '2026-05-20')],
    expected: [
      ['2026-05-19', 'awaiting approval'],
      ['2026-05-20', 'certified', '2026-05-10', '2027-05-10'],
      ['2026-06-01', 'certified', '2026-05-10', '2027-05-10'],
      ['2027-05-11', 'lapsed', '2026-05-10', '2027-05-10'],
    ],
  },
  {
    name: 'the earlier of two that wait is signed alone',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10', b: 'GO standing 2026-05-10' },
    decisions: [approve('a', '2026-06-01')],
    expected: [
      ['2026-06-01', 'certified', '2026-01-10', '2027-01-10'],
      ['2027-01-11', 'awaiting approval', '2026-01-10', '2027-01-10'],
    ],
  },
  {
    name: 'a carried-over award needs no signature and ends the waiting of one before it',
    approval: 'required',
    sheets: { a: 'GO standing 2025-05-10' },
    carried: [CARRIED],
    expected: [
      ['2025-05-31', 'awaiting approval'],
      ['2025-06-01', 'certified', '2025-06-01', '2026-05-31'],
      ['2026-06-01', 'lapsed', '2025-06-01', '2026-05-31'],
    ],
  },
  {
    name: 'an award carried over holds while a renewal by tests waits',
    approval: 'required',
    sheets: { a: 'GO standing 2026-05-20' },
    carried: [CARRIED],
    expected: [
      ['2026-05-31', 'certified', '2025-06-01', '2026-05-31'],
      ['2026-06-01', 'awaiting approval', '2025-06-01', '2026-05-31'],
    ],
  },
  {
    name: 'the terms of the GO that makes it say whether an award waits',
    later: ['2026-06-01', 'required'],
    sheets: { a: 'GO standing 2026-05-31', b: 'GO standing 2027-05-20' },
    expected: [
      ['2026-07-01', 'certified', '2026-05-31', '2027-05-31'],
      ['2027-06-01', 'awaiting approval', '2026-05-31', '2027-05-31'],
    ],
  },
  {
    name: 'a withdrawal from training leaves what waits',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10' },
    withdrawals: ['2026-01-15'],
    decisions: [approve('a', '2026-01-20')],
    expected: [
      ['2026-01-15', 'awaiting approval'],
      ['2026-01-20', 'certified', '2026-01-10', '2027-01-10'],
    ],
  },
  {
    name: 'a suspension is the status only once it is signed',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10' },
    suspensions: [{ from: '2026-01-12', lift: '2026-02-01' }],
    decisions: [approve('a', '2026-01-20')],
    expected: [
      ['2026-01-12', 'awaiting approval'],
      ['2026-01-20', 'suspended', '2026-01-10', '2027-01-10'],
      ['2026-02-01', 'certified', '2026-01-10', '2027-01-10'],
    ],
  },
  {
    name: 'an extension moves the last day, whatever day is asked about',
    sheets: { a: 'GO standing 2026-01-10' },
    extensions: [{ award: 'a', days: 60 }],
    expected: [
      ['2026-01-10', 'certified', '2026-01-10', '2027-03-11'],
      ['2027-03-11', 'certified', '2026-01-10', '2027-03-11'],
      ['2027-03-12', 'lapsed', '2026-01-10', '2027-03-11'],
    ],
  },
  {
    name: 'extensions of one award add up',
    sheets: { a: 'GO standing 2026-01-10' },
    extensions: [
      { award: 'a', days: 10 },
      { award: 'a', days: 5 },
    ],
    expected: [
      ['2027-01-25', 'certified', '2026-01-10', '2027-01-25'],
      ['2027-01-26', 'lapsed', '2026-01-10', '2027-01-25'],
    ],
  },
  {
    name: 'a renewal has no part in the extension of the one before it, though it ends earlier',
    sheets: { a: 'GO standing 2026-01-10', b: 'GO standing 2026-02-10' },
    extensions: [{ award: 'a', days: 60 }],
    expected: [
      ['2026-02-09', 'certified', '2026-01-10', '2027-03-11'],
      ['2026-02-10', 'certified', '2026-02-10', '2027-02-10'],
      ['2027-02-11', 'lapsed', '2026-02-10', '2027-02-10'],
    ],
  },
  {
    name: 'a carried-over award is extended',
    sheets: {},
    carried: [CARRIED],
    extensions: [{ award: 'paper', days: 30 }],
    expected: [
      ['2025-06-01', 'certified', '2025-06-01', '2026-06-30'],
      ['2026-06-30', 'certified', '2025-06-01', '2026-06-30'],
      ['2026-07-01', 'lapsed', '2025-06-01', '2026-06-30'],
    ],
  },
  {
    name: 'an extension of an award that is no more is about nothing',
    sheets: { a: 'GO standing 2026-01-10' },
    extensions: [{ award: 'b', days: 30 }],
    expected: [['2027-01-11', 'lapsed', '2026-01-10', '2027-01-10']],
  },
  {
    name: 'what waits is extended from its own last day',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10' },
    decisions: [approve('a', '2026-12-01')],
    extensions: [{ award: 'a', days: 30 }],
    expected: [
      ['2026-11-30', 'awaiting approval'],
      ['2027-02-09', 'certified', '2026-01-10', '2027-02-09'],
      ['2027-02-10', 'lapsed', '2026-01-10', '2027-02-09'],
    ],
  },
  {
    name: 'the extension of the one before it bridges the time until a renewal is signed',
    approval: 'required',
    sheets: { a: 'GO standing 2026-01-10', b: 'GO standing 2026-12-20' },
    decisions: [approve('a', '2026-01-10'), approve('b', '2027-01-20')],
    extensions: [{ award: 'a', days: 14 }],
    expected: [
      ['2027-01-19', 'certified', '2026-01-10', '2027-01-24'],
      ['2027-01-20', 'certified', '2026-12-20', '2027-12-20'],
    ],
  },
  {
    name: 'a suspension is the status through the last day as extended',
    sheets: { a: 'GO standing 2026-01-10' },
    extensions: [{ award: 'a', days: 10 }],
    suspensions: [{ from: '2027-01-05', lift: null }],
    expected: [
      ['2027-01-20', 'suspended', '2026-01-10', '2027-01-20'],
      ['2027-01-21', 'lapsed', '2026-01-10', '2027-01-20'],
    ],
  },
  {
    name: 'a failed renewal stays open beside an extension',
    sheets: { a: 'GO standing 2026-01-10', b: 'NO-GO standing 2027-01-05' },
    extensions: [{ award: 'a', days: 10 }],
    expected: [
      ['2027-01-20', 'certified', '2026-01-10', '2027-01-20'],
      ['2027-01-21', 'retest due', '2026-01-10', '2027-01-20'],
    ],
  },
]
