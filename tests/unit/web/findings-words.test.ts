import { describe, expect, it } from 'vitest'
import { eraTitle } from '../../../web/features/findings/era-title.ts'
import { majorRows, minorRows } from '../../../web/features/findings/failing-rows.ts'
import { formatBasis } from '../../../web/features/findings/format-basis.ts'
import {
  formatDifferences,
  formatFailingPicture,
  formatRate,
  formatRest,
} from '../../../web/features/findings/format-failing.ts'
import { formatFailing, formatFailingWhy } from '../../../web/features/findings/format-findings.ts'
import {
  formatAgreement,
  formatCorrect,
  formatGraders,
  formatGradersWhy,
  formatOneGrader,
  formatTwice,
  formatTwiceGraded,
} from '../../../web/features/findings/format-graders.ts'
import { clearestFirst, formatPair, formatPairs, formatPairsWhy } from '../../../web/features/findings/format-pairs.ts'
import { formatCoefficientOf, formatQuality, formatQualityWhy } from '../../../web/features/findings/format-quality.ts'
import { byOutside, formatReadings, formatReadingsWhy } from '../../../web/features/findings/format-readings.ts'
import { formatSponsorMeasure, formatSponsorMeasures } from '../../../web/features/findings/format-sponsor-measures.ts'
import {
  formatEstimate,
  formatExpected,
  formatOneSponsor,
  formatSponsors,
  formatSponsorsWhy,
} from '../../../web/features/findings/format-sponsors.ts'
import {
  formatCompanies,
  formatMedianInterval,
  formatTests,
  formatTime,
  formatTimeWhy,
} from '../../../web/features/findings/format-time.ts'
import {
  formatTrend,
  formatTrendPicture,
  formatTrendWhy,
  formatUnusual,
} from '../../../web/features/findings/format-trend.ts'
import { chosenTrend, trendKey } from '../../../web/features/findings/trend-key.ts'
import { formatMonth, formatMonthShort } from '../../../web/words/format-month.ts'
import { formatCoefficient, formatShare, formatShares } from '../../../web/words/format-share.ts'
import { grader, measure, month, rate, sponsor } from './given-findings.ts'

/** The words with plain spaces. */
const plain = (text: string) => text.replaceAll('\u00a0', ' ')

describe('shares and coefficients in words', () => {
  it('have no false decimals, and what is neither none nor all never looks like it', () => {
    expect([0, 0.001, 0.714, 0.999, 1].map(formatShare).map(plain)).toEqual([
      '0 %',
      'under 1 %',
      '71 %',
      'over 99 %',
      '100 %',
    ])
    expect(plain(formatShares({ low: 0.583, high: 0.809 }))).toBe('58 to 81 %')
  })
  it('have a real minus sign, and nought has none', () => {
    expect([0.721, -0.051, -0.001].map(formatCoefficient)).toEqual(['0.72', '−0.05', '0.00'])
  })
  it('months have names', () =>
    expect([formatMonth('2026-08'), formatMonthShort('2026-08')]).toEqual(['August 2026', 'Aug 26']))
})

describe('failing measures', () => {
  const fault = (code: string, count: number) => ({ code, count, ofIncorrect: null })
  const measures = [
    measure('draw', 1, 40),
    measure('return', 9, 40, { faults: [fault('left-hand-off', 12), fault('head-moved', 3)] }),
  ]
  it('name the one that fails most, with what it is out of', () => {
    expect(formatFailing(measures, ({ measure: code }) => code)).toBe('return fails most: NO-GO in 9 of 40.')
    expect(formatFailing([], String)).toBe('No test counts for these filters yet.')
    expect(formatFailing([measure('draw', 0, 3)], String)).toBe('No measure was NO-GO in the tests these filters find.')
  })
  it('say what is behind it and how little it may be', () => {
    const titles = { fault: (_: unknown, code: string) => code }
    expect(formatFailingWhy(measures, titles)).toBe(
      'Noted most on it: left-hand-off, on 12 trials. What a stopped or void test did not reach is not counted.',
    )
    expect(formatFailingWhy([measure('draw', 1, 2)], titles)).toMatch(/So few tests say little\.$/)
  })
  it('say whether the order is settled', () => {
    const name = (index: number) => ['Return', 'Draw'][index]!
    expect(plain(formatFailingPicture([measure('return', 20, 40), measure('draw', 1, 40)], name))).toBe(
      'The line through a dot holds the true rate with 95 % confidence: for Return 40 to 60 %. No other line reaches as far, so it does fail most.',
    )
    expect(formatFailingPicture([measure('return', 20, 40), measure('draw', 18, 40)], name)).toMatch(
      /One other line reaches as far; which of these two fails most is not settled/,
    )
    expect(formatFailingPicture([measure('draw', 0, 4)], name)).toMatch(/nothing was NO-GO here/)
  })
  it('have no share where nobody was tested', () => {
    expect(formatRate(rate(0, 0))).toBe('')
    expect(plain(formatRate(rate(4, 10)))).toBe('40 %, 30 to 50 %')
  })
  const rest = {
    noGo: 20,
    tested: 300,
    difference: 0.2,
    interval: { low: 0.05, high: 0.35 },
    p: 0.001,
    adjustedP: 0.01,
  }
  it('differ from the rest only where the figures say so', () => {
    expect(plain(formatRest({ ...rest, verdict: 'higher' }))).toBe(
      'higher than elsewhere (other units 20 of 300), by 5 to 35 %',
    )
    const lower = { ...rest, interval: { low: -0.35, high: -0.05 }, verdict: 'lower' as const }
    expect(plain(formatRest(lower))).toBe('lower than elsewhere (other units 20 of 300), by 5 to 35 %')
    expect(formatRest({ ...rest, verdict: 'not-shown' })).toBe('no difference shown (other units 20 of 300)')
    expect(formatRest(null)).toBe('')
    const two = [measure('draw', 1, 9, { rest: { ...rest, verdict: 'higher' } }), measure('return', 1, 9)]
    expect(formatDifferences(two, 'A Company')).toMatch(/^A Company fails more often on one of one measure than/)
    expect(formatDifferences(two, '')).toBe('')
  })
  it('of an older version are named so', () => {
    expect(eraTitle('Draw', { versions: [1, 2], current: false })).toBe('Draw, as in versions 1 and 2')
    expect(eraTitle('Draw', { versions: [1, 2], current: true })).toBe('Draw')
  })
  it('leave out what nobody was tested on, minors and majors alike', () => {
    const { standard, versions, current, rest: none, rate: share } = measure('uniform', 1, 10)
    const major = {
      standard,
      major: 'uniform',
      judged: 10,
      noGo: 1,
      faults: [],
      versions,
      current,
      rate: share,
      rest: none,
    }
    expect(minorRows({ items: [measure('draw', 0, 0), measure('return', 1, 2)] }).map((one) => one.measure)).toEqual([
      'return',
    ])
    expect(majorRows({ majors: [major, { ...major, judged: 0 }] })).toMatchObject([
      { measure: 'uniform', tested: 10, trials: null },
    ])
  })
})

describe('what answers rest on', () => {
  const none = { held: 0, rejected: 0, void: 0, secondGrader: 0, practice: 0 }
  it('is said with what is left out', () => {
    const basis = {
      level: 0.95,
      attempts: 1204,
      passes: 800,
      stopped: 63,
      recorded: 36,
      notCounted: { ...none, held: 8 },
    }
    expect(plain(formatBasis(basis))).toBe(
      'Rests on 1,204 attempts; intervals hold with 95 % confidence. 63 of them were stopped by a major measure; what was not reached there is not tested, never failed. In no figure about measures: 36 known by outcome only, without marks and 8 held.',
    )
    expect(plain(formatBasis({ ...basis, attempts: 1, stopped: 0, recorded: 0, notCounted: none }))).toBe(
      'Rests on 1 attempt; intervals hold with 95 % confidence.',
    )
    expect(formatBasis({ ...basis, attempts: 0, stopped: 0, recorded: 0, notCounted: none })).toBe(
      'Rests on no attempt.',
    )
  })
})

describe('sponsors', () => {
  const usual = sponsor(6, 4)
  const below = sponsor(20, 4, { differs: 'below', expected: 12.04, name: 'Reed, Ilse', grade: 'SSG' })
  const above = sponsor(21, 20, { differs: 'above' })
  it('are named only where they differ by more than chance allows', () => {
    expect(formatSponsors([usual, usual], { asked: 2, sponsors: 2 })).toBe(
      'Nothing differs by more than chance allows: none of 2 sponsors can be told from the others.',
    )
    expect(formatSponsors([below, usual, above], { asked: 3, sponsors: 3 })).toBe(
      'Two of 3 sponsors differ by more than chance allows: SGT Ashdown above; SSG Reed below.',
    )
    expect(formatSponsors([below, below, below, below, usual], { asked: 5, sponsors: 5 })).toBe(
      'Four of 5 sponsors differ by more than chance allows: four below.',
    )
    expect(formatSponsors([], { asked: 0, sponsors: 0 })).toBe(
      'No attempt with a sponsor counts for these filters yet.',
    )
    expect(formatSponsors([sponsor(3, 3)], { asked: 0, sponsors: 1 })).toMatch(/^No sponsor has the five attempts/)
    expect(formatSponsors([usual, sponsor(3, 3)], { asked: 1, sponsors: 2 })).toMatch(/nobody to compare with/)
  })
  it('who are shown themselves alone are told of themselves alone', () => {
    expect(formatSponsors([usual], { asked: 12, sponsors: 30 })).toBe(
      'SGT Ashdown, Mirela: with 6 attempts this can’t be told from the others.',
    )
  })
  it('are told what they are held against, and who is not judged', () => {
    expect(formatSponsorsWhy([below, usual])).toMatch(
      /^Each is held against how such candidates do .* a question to ask/,
    )
    expect(formatSponsorsWhy([usual, sponsor(3, 3)])).toMatch(/One has fewer than five attempts and is not judged\.$/)
    expect(formatSponsorsWhy([usual])).not.toMatch(/question|fewer/)
  })
  it('have one verdict each, and what it rests on', () => {
    expect(formatOneSponsor(usual)).toBe('with 6 attempts this can’t be told from the others')
    expect(formatOneSponsor(below)).toBe('fewer GO than such candidates have, by more than chance allows')
    expect(formatOneSponsor(sponsor(4, 4))).toBe('4 attempts: too few to tell anything')
    expect(formatExpected(below)).toBe('4 where such candidates have 12.0')
    expect(plain(formatEstimate(usual))).toBe('60 %, 45 to 74 %')
  })
})

describe('months', () => {
  const quiet = [month('2026-01', 3, 10), month('2026-02', 4, 10)]
  const series = (points = quiet, part = {}) => ({
    standard: 's',
    measure: null as string | null,
    major: false,
    versions: [1],
    current: true,
    count: points.reduce((sum, { count }) => sum + count, 0),
    n: points.reduce((sum, { n }) => sum + n, 0),
    centre: 0.35,
    points,
    ...part,
  })
  const loud = [...quiet, month('2026-03', 14, 20, { beyond: 'above', signals: ['beyond-limit'], high: 0.63 })]
  it('are unusual only with a signal', () => {
    expect(plain(formatTrend(series(), 'Draw'))).toBe('Draw: no month of two was unusual; 35 % NO-GO throughout.')
    expect(formatTrend(series(loud), 'Draw')).toBe('Draw: NO-GO in 14 of 20 in March 2026, where up to 12 is usual.')
    expect(formatTrend(series([month('2026-01', 1, 2)]), 'Draw')).toBe('Draw: one month of tests shows no trend yet.')
    expect(formatTrend(undefined, '')).toBe('No test counts for these filters yet.')
  })
  it('in a row are said once', () => {
    const run = [
      month('2026-08', 1, 10, { signals: ['run-of-eight'] }),
      month('2026-09', 1, 10, { signals: ['run-of-eight'] }),
    ]
    expect(plain(formatUnusual(series(run)))).toBe(
      'eight months or more in a row below the usual 35 %, up to September 2026',
    )
  })
  it('outside the lines by chance are said to be no wonder', () => {
    expect(formatTrendPicture(series([month('2026-01', 3, 4, { beyond: 'above' })]))).toMatch(
      /January 2026 lies outside the lines, but/,
    )
    expect(formatTrendPicture(series())).not.toMatch(/outside the lines/)
  })
  it('with hardly a NO-GO make runs that say little', () => {
    expect(formatTrendPicture(series([month('2026-01', 0, 30), month('2026-02', 1, 30)]))).toMatch(
      /a run below says little/,
    )
    expect(formatTrendPicture(series())).not.toMatch(/says little/)
  })
  it('of many charts are unusual by chance in their number', () => {
    // 49 charts of 20 months, by hand: 980 × 0.0027 + (980 − 343) × 2/256 = 2.6 + 5.0.
    const all = Array.from({ length: 49 }, () => series())
    expect(formatTrendWhy(all, all[0], 980)).toBe(
      'Nothing else is unusual. Of 980 months in all charts about eight would be called unusual by chance alone.',
    )
    expect(formatTrendWhy([series(), series(loud)], undefined, 5)).toMatch(
      /^One other chart has something unusual\. .*hardly one/,
    )
  })
  it('are found by the chart’s key, else the test taken most', () => {
    const small = series(quiet, { standard: 'a', n: 3 })
    const draw = series(quiet, { measure: 'draw', current: false, versions: [1, 2] })
    expect(trendKey(draw)).toBe('s/draw/1.2')
    expect(trendKey(series())).toBe('s')
    expect(chosenTrend([small, series(), draw], 's/draw/1.2')).toBe(draw)
    expect(chosenTrend([small, draw, series()], 'nothing')).toMatchObject({ standard: 's', measure: null })
    expect(chosenTrend([], '')).toBeUndefined()
  })
})

describe('readings', () => {
  const gauge = (low: number, readings: number, part = {}) => ({
    standard: 's',
    measure: 'draw',
    gauge: 'tip',
    versions: [1],
    current: true,
    title: 'Height of the tip',
    unit: 'in',
    min: '4',
    max: '6',
    target: null,
    readings,
    overridden: 0,
    low: rate(low, readings),
    within: rate(readings - low, readings),
    high: rate(0, readings),
    bars: [],
    ...part,
  })
  it('are counted against their band', () => {
    expect(formatReadings(gauge(12, 60))).toBe('Height of the tip: of 60 readings 12 low.')
    expect(formatReadings(gauge(0, 60))).toBe('Height of the tip: all 60 readings lie within the band.')
    expect(formatReadings(gauge(0, 1))).toBe('Height of the tip: the one reading lies within the band.')
    expect(formatReadings(undefined)).toBe('No reading was taken within these filters.')
  })
  it('have no share beyond a limit that there is not', () => {
    expect(plain(formatReadingsWhy(gauge(12, 60, { max: null, overridden: 1 })))).toBe(
      'The band is at least 4 in: low 20 %, 10 to 30 %. One outside was let stand by the grader, with a reason.',
    )
  })
  it('come with most outside first; few readings do not lead', () => {
    expect(
      byOutside([gauge(1, 50), gauge(2, 2), gauge(20, 50)]).map(({ readings, low }) => [low.count, readings]),
    ).toEqual([
      [20, 50],
      [1, 50],
      [2, 2],
    ])
  })
})

describe('pairs', () => {
  const pair = (part = {}) => ({
    standard: 's',
    first: 'draw',
    second: 'return',
    versions: [1],
    current: true,
    n: 100,
    both: 12,
    firstOnly: 8,
    secondOnly: 18,
    neither: 62,
    expected: 6,
    phi: 0.3,
    p: 0.001,
    adjustedP: 0.01,
    verdict: 'together' as const,
    reason: null,
    ...part,
  })
  it('are named only where ability does not explain them, and how many may be false', () => {
    const names = () => ['Draw', 'Return'] as const
    expect(formatPairs([pair(), pair({ verdict: 'not-shown' })], names)).toBe(
      'One pair of 2 fails together beyond what weak candidates make of it: Draw and Return.',
    )
    expect(formatPairs([pair({ verdict: 'not-shown' })], names)).toMatch(
      /^Nothing differs by more than chance allows: no two measures fail together/,
    )
    expect(formatPairs([pair({ phi: null, p: null, verdict: 'undefined', reason: 'too-few' })], names)).toMatch(
      /^Too few/,
    )
    expect(formatPairs([], names)).toBe('No test counts for these filters yet.')
    const many = Array.from({ length: 40 }, () => pair())
    expect(formatPairs(many, names)).toBe(
      '40 pairs of 40 fail together beyond what weak candidates make of it: most clearly Draw and Return.',
    )
    expect(formatPairsWhy(many, 0.05)).toBe(
      'Candidates are compared with others of the same score on all other measures. The clearest were both NO-GO in 12 of 100, where ability alone makes 6. Of those named up to two may be false.',
    )
    expect(formatPairsWhy([pair({ verdict: 'apart' })], 0.05)).toMatch(/One pair fails apart: who fails one/)
  })
  it('that cannot be reckoned come last and say why', () => {
    const never = pair({ phi: null, p: null, adjustedP: null, verdict: 'undefined', reason: 'one-never-varies' })
    expect(clearestFirst([never, pair({ adjustedP: 0.04 }), pair()]).map(({ adjustedP }) => adjustedP)).toEqual([
      0.01,
      0.04,
      null,
    ])
    expect(formatPair(never)).toBe('one of both always came out alike')
  })
})

describe('standards as tests', () => {
  const reliability = { value: 0.64, interval: { low: 0.59, high: 0.68 }, reason: null }
  const quality = (part = {}) => ({
    standard: 's',
    versions: [1],
    current: true,
    sheets: 527,
    leftOut: { undecided: 22, recorded: 19 },
    reliability,
    measures: [],
    ...part,
  })
  it('are said to tell candidates apart as far as KR-20 says', () => {
    expect(plain(formatQuality(quality(), 'Rifle'))).toBe(
      'Rifle: 64 % of the differences between scores are real, the rest is chance.',
    )
    expect(formatQuality(quality({ reliability: { value: -0.1, interval: null, reason: null } }), 'Rifle')).toBe(
      'Rifle: scores differ no more than chance makes them.',
    )
    const one = { value: null, interval: null, reason: 'one-sheet' as const }
    expect(formatQuality(quality({ reliability: one }), 'Rifle')).toMatch(
      /is not known, one test alone does not give it\.$/,
    )
  })
  it('say what is left out and how many', () => {
    expect(plain(formatQualityWhy(quality()))).toBe(
      'KR-20 is 0.64, 0.59 to 0.68 with 95 % confidence. From 527 tests carried through; left out 22 in which not every measure was decided and 19 known by outcome only.',
    )
  })
  it('print no figure for what is undefined', () => {
    expect(formatCoefficientOf({ value: null, interval: null, reason: 'item-never-varies' })).toBe(
      'undefined: came out alike for everybody',
    )
  })
})

describe('graders', () => {
  const usual = grader()
  const strict = grader({ name: 'Reed, Ilse', grade: 'SSG', differs: 'above' })
  it('are named only where they differ by more than chance allows', () => {
    expect(formatGraders([usual, usual])).toBe(
      'Nothing differs by more than chance allows: none of 2 graders can be told from the others.',
    )
    expect(formatGraders([strict, usual, grader({ differs: 'below' })])).toBe(
      'Two of 3 graders differ by more than chance allows: SSG Reed stricter; SGT Ashdown more lenient.',
    )
    expect(formatGraders([grader({ differs: 'few' })])).toBe('Nothing can be told about any grader yet.')
    expect(formatGraders([])).toMatch(/^No graded test/)
    expect(formatOneGrader(strict)).toBe('stricter than the others, by more than chance allows')
    expect(formatOneGrader(usual)).toBe('with 20 attempts this can’t be told from the others')
    expect(formatOneGrader(grader({ attempts: 3, differs: 'few' }))).toBe('3 attempts: too few to tell anything')
    expect(formatOneGrader(grader({ severity: null, differs: 'few' }))).toBe('not worked out yet')
  })
  it('are told what severity makes of a hundred trials, and who was stricter on the same attempt', () => {
    expect(formatCorrect(usual, 0.79)).toBe('76 of 100 trials correct, 72 to 80; the average grader 79')
    expect(formatCorrect(grader({ correct: null }), null)).toBe('')
    const twice = { attempts: 9, stricter: 6, lenient: 1, p: 0.125, adjustedP: 0.125, differs: 'no' as const }
    expect(formatTwice({ twice })).toBe('stricter on 6, more lenient on 1 of 9')
    expect(formatTwice({ twice: { ...twice, differs: 'stricter' } })).toMatch(/: more than chance allows$/)
    expect(formatTwice({ twice: null })).toBe('none')
    expect(formatGradersWhy([grader({ twice: { ...twice, differs: 'stricter' } })])).toMatch(
      /On attempts graded twice: SGT Ashdown stricter than the other grader\./,
    )
    expect(formatGradersWhy([usual])).not.toMatch(/graded twice/)
    expect(formatGradersWhy([grader({ severity: null })])).toMatch(/look again in some minutes/)
  })
  const kappa = {
    value: 0.867,
    interval: { low: 0.58, high: 1 },
    observed: 0.93,
    byChance: 0.5,
    band: null,
    reason: null,
  }
  it('agree by a coefficient, or it is said that there is none', () => {
    expect(formatAgreement(kappa)).toBe('0.87, 0.58 to 1.00')
    expect(formatAgreement({ ...kappa, value: 1, interval: null })).toBe('1.00, never disagreed')
    expect(formatAgreement({ ...kappa, value: null, interval: null, reason: 'one-category' })).toBe(
      'undefined: all marks alike',
    )
  })
  it('say on how many attempts agreement rests', () => {
    const leftOut = { firstNotCounted: 0, notCounted: 1, void: 0, recorded: 0, notTheSameTest: 0 }
    const item = {
      standard: 's',
      measure: null,
      major: false,
      versions: [1],
      current: true,
      attempts: 15,
      table: { bothGo: 7, firstGoOnly: 1, secondGoOnly: 0, bothNoGo: 7 },
      cohen: kappa,
      fleiss: kappa,
      ac1: kappa,
    }
    const said = formatTwiceGraded({ items: [item], basis: { level: 0.95, attempts: 15, leftOut } })
    expect(plain(said)).toMatch(
      /^15 attempts were graded twice; on the outcome both agreed in 14 \(93 %\)\..*Left out: 1 held or rejected\.$/,
    )
    expect(formatTwiceGraded({ items: [], basis: { level: 0.95, attempts: 0, leftOut } })).toMatch(
      /^No attempt was graded twice/,
    )
  })
})

describe('time to certify', () => {
  const curve = (part = {}) => ({
    soldiers: 78,
    certified: 69,
    waiting: 4,
    left: 5,
    median: 56 as number | null,
    medianInterval: { low: 35 as number | null, high: 71 as number | null },
    points: [],
    tests: { median: 2 as number | null, counts: [] },
    ...part,
  })
  it('is the day by which half are certified', () => {
    expect(formatTime(curve(), 'Sword', 'first-attempt')).toBe(
      'Half are certified for Sword within 56 days after the first attempt.',
    )
    expect(formatTime(curve({ median: 0 }), 'Sword', 'first-attempt')).toBe(
      'Half or more are certified for Sword with their first attempt.',
    )
    expect(formatTime(curve({ median: null, certified: 3 }), 'Sword', 'first-attempt')).toMatch(
      /^Fewer than half of 78 soldiers .*: 3 so far, 5 left\.$/,
    )
    expect(formatTime(undefined, '', 'first-attempt')).toMatch(/^Nobody began/)
  })
  it('counts those who wait for as long as seen, and those who left as such', () => {
    expect(plain(formatTimeWhy(curve()))).toBe(
      'With 95 % confidence the middle lies at 35 to 71 days. Of 78 soldiers four still wait and five left uncertified. Who waits counts for as long as seen; who left is not certified any more.',
    )
  })
  it('is told in tests, too', () => {
    expect(formatTests(curve())).toMatch(/^half are certified with 2 tests or fewer/)
    expect(formatTests(curve({ tests: { median: null, counts: [] } }))).toMatch(/^fewer than half/)
  })
  it('has open ends where they are open', () => {
    expect(formatMedianInterval({ low: 35, high: null })).toBe('35 days or more, no upper end yet')
    expect(formatMedianInterval({ low: null, high: null })).toBe('not known yet')
  })
  it('differs between companies, as the unit calls them, only where the test says so', () => {
    const FLIGHTS = { one: 'flight', many: 'flights' }
    const companies = [1, 2, 3].map(() => ({ ...curve(), unitId: null, name: null }))
    const comparison = {
      verdict: 'not-shown' as const,
      reason: null,
      chiSquare: 1,
      degreesOfFreedom: 2,
      p: 0.66,
      expected: [],
    }
    expect(plain(formatCompanies({ comparison, companies }, FLIGHTS))).toBe(
      'No difference between the three flights is shown (log-rank test, p = 0.66); that does not prove them alike.',
    )
    expect(
      plain(formatCompanies({ comparison: { ...comparison, verdict: 'differ', p: 0.0001 }, companies }, FLIGHTS)),
    ).toMatch(/p < 0\.001/)
    const none = { ...comparison, verdict: 'not-compared' as const, reason: 'no-events' as const, p: null }
    expect(formatCompanies({ comparison: none, companies }, FLIGHTS)).toMatch(/nobody is certified yet/)
    const many = { ...none, reason: 'too-many-groups' as const }
    expect(formatCompanies({ comparison: many, companies }, FLIGHTS)).toBe(
      'Three flights are too many for one test: choose a unit above fewer of them.',
    )
  })
})

describe('what a sponsor’s candidates fail', () => {
  const item = (measure: string, count: number, n: number, differs: 'more' | 'no' | 'few' = 'no') => ({
    standard: 's',
    measure,
    major: false,
    versions: [1],
    current: true,
    own: rate(count, n),
    others: rate(20, 200),
    expected: 6.67,
    adjustedP: differs === 'few' ? null : 0.01,
    differs,
  })
  const titleOf = ({ measure }: { measure: string }) => measure
  it('is named where it stands out, and else that nothing does', () => {
    expect(formatSponsorMeasures([item('Draw', 20, 40, 'more'), item('Turn', 25, 40)], titleOf)).toBe(
      'Draw is failed more often than such candidates of others fail it. NO-GO most often: Turn, 25 of 40.',
    )
    expect(formatSponsorMeasures([item('Turn', 4, 40)], titleOf)).toMatch(/^Nothing differs .*Turn, 4 of 40\.$/)
    expect(formatSponsorMeasures([], titleOf)).toMatch(/^None of their tests/)
    expect(formatSponsorMeasure(item('Draw', 20, 40, 'more'))).toBe(
      'More than chance allows; such candidates of others 6.7',
    )
    expect(formatSponsorMeasure(item('Draw', 1, 3, 'few'))).toMatch(/^too few to tell/)
  })
})
