import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import type { Agreement } from '../../server/domain/statistics/agreement/agreement.ts'
import { agreementBand } from '../../server/domain/statistics/agreement/agreement-band.ts'
import { cohenKappa } from '../../server/domain/statistics/agreement/cohen-kappa.ts'
import { fleissKappa } from '../../server/domain/statistics/agreement/fleiss-kappa.ts'
import { gwetAc1 } from '../../server/domain/statistics/agreement/gwet-ac1.ts'
import type { RatedSheets } from '../../server/domain/statistics/agreement/rating-tally.ts'
import { expectDigits, expectInterval } from './support/expect-digits.ts'
import { readCsv } from './support/read-csv.ts'

const tables: Record<string, number[][]> = JSON.parse(
  readFileSync(join(import.meta.dirname, 'data', 'kappa_two_rater_tables.json'), 'utf8'),
)

function defined(agreement: Agreement) {
  if (agreement.kind !== 'agreement') throw new Error(agreement.reason)
  return agreement
}

/** A table of two graders as tallies of sheets by category. */
function asRatings(table: readonly (readonly number[])[]): RatedSheets[] {
  return table.flatMap((row, i) =>
    row.map((sheets, j) => ({ ratings: row.map((_, k) => Number(k === i) + Number(k === j)), sheets })),
  )
}

// J. Cohen (1960), Educational and Psychological Measurement 20:37–46: κ .492. Standard errors of Fleiss, Cohen &
// Everitt (1969) recomputed with R vcd 1.4-11.
test('Cohen 1960, 200 subjects', () => {
  const kappa = defined(cohenKappa(tables.cohen1960!))
  expectDigits(kappa.observed, '.70')
  expectDigits(kappa.byChance, '.41')
  expectDigits(kappa.value, '.492')
  expectDigits(kappa.value, '.4915254237')
  expectDigits(kappa.standardError, '.0510018')
  expectInterval(kappa.interval, '.3916 – .5915')
  expect(kappa).toMatchObject({ subjects: 200, band: 'moderate' })
})

// R irr, kappa2, on the table of github.com/ramnathv/RExRepos md/interRaterICC.md: Kappa 0.429, z 5.46 (z by the
// standard error under chance agreement of Fleiss, Cohen & Everitt 1969; Cohen's own of 1960, √(pₑ/(n (1 − pₑ))), is
// an older one).
test('irr: 100 subjects, 2 raters, test against chance', () => {
  const kappa = defined(
    cohenKappa([
      [53, 5, 2],
      [11, 14, 5],
      [1, 6, 3],
    ]),
  )
  expectDigits(kappa.value, '.429')
  expectDigits(kappa.value / kappa.errorIfChance!, '5.46')
})

// J. L. Fleiss (1971), Psychological Bulletin 76:378–382: κ .430; null s.e. of Fleiss, Nee & Landis (1979), z 17.65
// (R irr prints 17.7).
test('Fleiss 1971, 30 subjects and 6 raters', () => {
  const rated = readCsv('fleiss1971_counts.csv').map(({ subject, ...counts }) => ({
    ratings: Object.values(counts).map(Number),
    sheets: 1,
  }))
  const kappa = defined(fleissKappa(rated))
  expectDigits(kappa.observed, '.5555555556')
  expectDigits(kappa.byChance, '.2199382716')
  expectDigits(kappa.value, '.430')
  expectDigits(kappa.value, '.4302445201')
  expectDigits(kappa.errorIfChance, '.0243739321')
  expectDigits(kappa.value / kappa.errorIfChance!, '17.65183058')
})

// K. L. Gwet (2008), Br. J. Math. Stat. Psychol. 61:29–48; output printed in the vignette of R irrCAC. The standard
// error .15302 and interval (.424, 1) of Fleiss' kappa, and (.461, 1) of AC1, are from memory of that vignette.
describe('Gwet: 12 units, 4 raters, missing ratings', () => {
  const rated = readCsv('gwet_raw4raters.csv').map(({ Units, ...raters }) => ({
    ratings: [1, 2, 3, 4, 5].map(
      (category) => Object.values(raters).filter((mark) => Number(mark) === category).length,
    ),
    sheets: 1,
  }))

  test('AC1', () => {
    const ac1 = defined(gwetAc1(rated))
    expectDigits(ac1.observed, '.8181818')
    expectDigits(ac1.byChance, '.1903212')
    expectDigits(ac1.value, '.77544')
    expectDigits(ac1.value, '.7754440681')
    expectDigits(ac1.standardError, '.14295')
    expectInterval(ac1.interval, '.461 – 1')
    expect(ac1.interval!.high).toBe(1)
  })

  test("Fleiss' kappa", () => {
    const kappa = defined(fleissKappa(rated))
    expectDigits(kappa.value, '.76117')
    expectDigits(kappa.value, '.7611692754')
    expectDigits(kappa.standardError, '.15302')
    expectInterval(kappa.interval, '.424 – 1')
    expect(kappa.errorIfChance).toBeNull()
  })
})

// cran.r-project.org/web/packages/irrCAC/vignettes/overview.html, table of two raters (gwet.ac1.table and
// scott2.table: Fleiss' kappa of two raters is Scott's pi). Its table functions divide by n where those for raw
// ratings, and ours, divide by n − 1.
test('irrCAC: 100 subjects, 2 raters', () => {
  const rated = asRatings([
    [13, 0, 0],
    [0, 20, 7],
    [0, 4, 56],
  ])
  const ac1 = defined(gwetAc1(rated))
  expectDigits(ac1.value, '.8493305')
  expectDigits(ac1.standardError! * Math.sqrt(99 / 100), '.04321747')
  const kappa = defined(fleissKappa(rated))
  expectDigits(kappa.value, '.7962397')
  expectDigits(kappa.standardError! * Math.sqrt(99 / 100), '.05905473')
})

// A. R. Feinstein & D. V. Cicchetti (1990), J. Clin. Epidemiol. 43:543–549: the same 85 % of agreement, two kappas.
describe('the paradoxes of kappa', () => {
  test('balanced shares', () => {
    const kappa = defined(cohenKappa(tables.feinstein_40!))
    expectDigits(kappa.byChance, '.5008')
    expectDigits(kappa.value, '.70')
    expectDigits(kappa.value, '.6995192308')
    expectDigits(defined(gwetAc1(asRatings(tables.feinstein_40!))).value, '.7007481')
  })

  test('lopsided shares', () => {
    const kappa = defined(cohenKappa(tables.feinstein_80!))
    expectDigits(kappa.byChance, '.78')
    expectDigits(kappa.value, '.32')
    expectDigits(kappa.value, '.3181818182')
    expect(defined(gwetAc1(asRatings(tables.feinstein_80!))).value).toBeCloseTo(0.808, 12)
  })

  // Wikipedia, "Cohen's kappa", simple example: exactly .40, the edge of a band.
  test('the textbook example is fair, not moderate', () => {
    const kappa = defined(cohenKappa(tables.wikipedia_20!))
    expect(kappa.value).toBeCloseTo(0.4, 14)
    expect(kappa.band).toBe('fair')
  })
})

// J. R. Landis & G. G. Koch (1977), Biometrics 33:159–174. The printed bands leave .205 and .405 open; our rule:
// above an edge is the next band.
test.each([
  [-0.01, 'poor'],
  [0, 'slight'],
  [0.2, 'slight'],
  [0.205, 'fair'],
  [0.21, 'fair'],
  [0.4, 'fair'],
  [0.405, 'moderate'],
  [0.6, 'moderate'],
  [0.61, 'substantial'],
  [0.8, 'substantial'],
  [0.81, 'almost-perfect'],
  [1, 'almost-perfect'],
] as const)('%d is %s', (value, band) => {
  expect(agreementBand(value)).toBe(band)
})

describe('what cannot be said', () => {
  test('two graders who always said GO: kappa undefined, AC1 is 1 without an interval', () => {
    const table = [
      [12, 0],
      [0, 0],
    ]
    expect(cohenKappa(table)).toEqual({ kind: 'undefined', reason: 'one-category' })
    expect(fleissKappa(asRatings(table))).toEqual({ kind: 'undefined', reason: 'one-category' })
    expect(gwetAc1(asRatings(table))).toMatchObject({ value: 1, interval: null })
  })

  test('no sheet graded twice', () => {
    expect(cohenKappa([[0]])).toEqual({ kind: 'undefined', reason: 'no-data' })
    expect(gwetAc1([{ ratings: [1, 0], sheets: 9 }])).toEqual({ kind: 'undefined', reason: 'no-data' })
    expect(fleissKappa([])).toEqual({ kind: 'undefined', reason: 'no-data' })
  })
})
