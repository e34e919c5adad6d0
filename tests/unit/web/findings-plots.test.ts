import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { coefficientAxis } from '../../../web/charts/plot/coefficient-axis.ts'
import { curvePlot } from '../../../web/charts/plot/curve-plot.ts'
import { formatKey } from '../../../web/charts/plot/format-key.ts'
import { funnelPlot } from '../../../web/charts/plot/funnel-plot.ts'
import { monthPlot } from '../../../web/charts/plot/month-plot.ts'
import { placeNames } from '../../../web/charts/plot/place-names.ts'
import { INKS, type Ink, type Plot, type Series } from '../../../web/charts/plot/plot.ts'
import { formatBar, readingPlot } from '../../../web/charts/plot/reading-plot.ts'
import { rowsPlot } from '../../../web/charts/plot/rows-plot.ts'
import { shareAxis } from '../../../web/charts/plot/share-axis.ts'
import { toConfig } from '../../../web/charts/plot/to-config.ts'
import { wrap } from '../../../web/charts/plot/to-png.ts'
import { toCsv } from '../../../web/ui/to-csv.ts'
import { id } from './given.ts'
import { month, rate, sponsor } from './given-findings.ts'

const keys = (plot: Plot) => plot.series.flatMap(({ key }) => key ?? [])
const series = (plot: Plot, key: string): Series => plot.series.find((one) => one.key === key)!
const pointsOf = (plot: Plot, key: string) => {
  const found = series(plot, key)
  return 'points' in found ? found.points.map(({ x, y }) => [x, y]) : []
}

describe('CSV', () => {
  // RFC 4180, 2.5 to 2.7: quotes around fields with commas, quotes or line breaks; quotes doubled; CRLF.
  it('is written as RFC 4180 says', () => {
    expect(
      toCsv(
        ['name', 'n'],
        [
          ['Ashdown, Mirela', 2],
          ['the "Old" one', null],
          ['two\nlines', 0.5],
        ],
      ),
    ).toBe('name,n\r\n"Ashdown, Mirela",2\r\n"the ""Old"" one",\r\n"two\nlines",0.5\r\n')
  })
  // The characters OWASP names under "CSV Injection".
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1'])('a text like a formula is no formula: %j', (text) => {
    expect(toCsv([], [[text]])).toMatch(/^\r\n"?'/)
  })
  it('negative numbers stay numbers', () => expect(toCsv(['phi'], [[-0.25]])).toBe('phi\r\n-0.25\r\n'))
})

describe('axes', () => {
  it('of shares hold the greatest and end at all', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (greatest) => {
        const { from, to, ticks } = shareAxis('', greatest)
        expect(from).toBe(0)
        expect(to).toBeGreaterThanOrEqual(greatest - 1e-9)
        expect(to).toBeLessThanOrEqual(1)
        expect(ticks.length).toBeLessThanOrEqual(7)
        expect(ticks.at(-1)).toBeCloseTo(to, 10)
      }),
    )
    expect(shareAxis('', 0.41).ticks).toEqual([0, 0.1, 0.2, 0.3, 0.4, 0.5])
  })
  it('of coefficients hold nought and every value', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { maxLength: 5 }), (values) => {
        const { from, to } = coefficientAxis('', values)
        for (const value of [0, ...values]) {
          expect(from).toBeLessThanOrEqual(value + 1e-9)
          expect(to).toBeGreaterThanOrEqual(value - 1e-9)
        }
        expect(to).toBeGreaterThan(from)
      }),
    )
    expect(coefficientAxis('', [-0.3, 0.1]).ticks.map(coefficientAxis('', []).say)).toEqual([
      '−0.4',
      '−0.2',
      '0.0',
      '0.2',
    ])
  })
})

describe('rows', () => {
  const rows = (names: string[]) =>
    rowsPlot({
      rows: names.map((name, index) => ({
        name,
        at: index === 1 ? null : 0.5,
        span: index === 1 ? null : { low: 0.2, high: 3 },
        kind: 'shown' as 'shown' | 'few',
        says: ['5 of 10'],
      })),
      across: shareAxis('', 1),
      kinds: { shown: { key: 'share', shape: 'disc', ink: 'ink' }, few: { key: 'few', shape: 'ring', ink: 'ink' } },
      spanKey: 'interval',
      against: [{ at: 0.3, key: 'the unit' }],
    })
  it('stand under each other by name; one without a figure stays empty', () => {
    const plot = rows(['Draw', 'Return', 'About face'])
    expect(plot.up.ticks.map(plot.up.say)).toEqual(['Draw', 'Return', 'About face'])
    expect(pointsOf(plot, 'share')).toEqual([
      [0.5, 0],
      [0.5, 2],
    ])
  })
  it('keep intervals within the axis, and name in the key only what is drawn', () => {
    const plot = rows(['Draw'])
    expect(series(plot, 'interval')).toMatchObject({ spans: [{ low: 0.2, high: 1, y: 0 }] })
    expect(keys(plot)).toEqual(['the unit', 'interval', 'share'])
  })
  it('are drawn even when there is only one', () => {
    const { up } = rows(['Draw'])
    expect(up.from).toBeLessThan(0)
    expect(up.to).toBeGreaterThan(0)
  })
})

describe('months', () => {
  const points = [
    month('2026-01', 3, 10),
    month('2026-02', 0, 0),
    month('2026-03', 9, 10, { beyond: 'above', signals: ['beyond-limit'] }),
    month('2026-04', 8, 10, { beyond: 'above' }),
  ]
  const plot = monthPlot({ points, centre: 0.4 })
  it('mark the unusual ones by another shape, and what only chance put outside by a third', () => {
    expect(pointsOf(plot, 'unusual')).toEqual([[2, 0.9]])
    expect(pointsOf(plot, 'outside, but as chance has it')).toEqual([[3, 0.8]])
    expect(pointsOf(plot, 'usual')).toEqual([[0, 0.3]])
    const shapes = plot.series.flatMap((one) => (one.kind === 'marks' ? one.shape : []))
    expect(new Set(shapes).size).toBe(shapes.length)
  })
  it('leave a gap where nobody was tested', () => expect(pointsOf(plot, 'limits')[1]).toEqual([1, null]))
  it('name the newest month on the axis however many there are', () => {
    const many = Array.from({ length: 120 }, (_, index) =>
      month(`${2016 + Math.floor(index / 12)}-${String((index % 12) + 1).padStart(2, '0')}`, 1, 10),
    )
    const { across } = monthPlot({ points: many, centre: 0.1 })
    expect(across.ticks.length).toBeLessThanOrEqual(12)
    expect(across.say(across.ticks.at(-1)!)).toBe('Dec 25')
  })
})

describe('the funnel', () => {
  const sponsors = [
    sponsor(3, 3, { expected: 1 }),
    sponsor(10, 7, { expected: 6 }),
    sponsor(20, 2, { expected: 5, differs: 'below' }),
  ]
  const line = { attempts: 1, usual: { low: 0, high: 0.95 }, called: { low: 0, high: 0.99 } }
  const funnel = { rate: rate(12, 33), mostAttempts: 20, lines: [line] }
  it('tells few, usual and unusual apart by shape', () => {
    const plot = funnelPlot(sponsors, funnel, new Map([[id(20), 'SGT Ashdown']]))
    // The common rate and what they had above or below such candidates at large, within 0 and 1.
    expect(pointsOf(plot, 'fewer than five attempts')).toEqual([[3, 1]])
    expect(pointsOf(plot, 'can’t be told from the others')).toEqual([[10, 12 / 33 + 0.1]])
    expect(pointsOf(plot, 'fewer GO than chance allows')).toEqual([[20, 12 / 33 - 0.15]])
    expect(plot.series.filter(({ kind }) => kind === 'marks').map((one) => 'shape' in one && one.shape)).toEqual([
      'ring',
      'disc',
      'down',
    ])
  })
  it('names who lies outside, and nobody else', () => {
    const plot = funnelPlot(sponsors, funnel, new Map([3, 10, 20].map((number) => [id(number), `SGT ${number}`])))
    const named = plot.series.flatMap((one) =>
      one.kind === 'marks' ? one.points.flatMap(({ name }) => name ?? []) : [],
    )
    expect(named).toEqual(['SGT 20'])
  })
  it('writes names beside their points, within the drawing and off each other', () => {
    const area = { left: 0, right: 100, top: 0, bottom: 100 }
    const at = (name: string, x: number, y: number) => ({ name, x, y, width: 30 })
    expect(placeNames([at('a', 20, 50)], 10, area)).toEqual([{ name: 'a', x: 31, y: 50 }])
    expect(placeNames([at('a', 90, 50)], 10, area)).toEqual([{ name: 'a', x: 49, y: 50 }])
    expect(placeNames([at('a', 20, 50), at('b', 25, 52)], 10, area).map(({ y }) => y)).toEqual([50, 62])
    expect(placeNames([at('a', 20, 99), at('b', 25, 99)], 10, area).map(({ y }) => y)).toEqual([99, 89])
  })
  it('has no limits where there are none', () => {
    const plot = funnelPlot([], { ...funnel, lines: [], rate: rate(0, 0), mostAttempts: 0 }, new Map())
    expect(plot.series).toEqual([])
    expect(plot.across.to).toBeGreaterThan(0)
  })
})

describe('the curve', () => {
  const curve = {
    soldiers: 3,
    certified: 2,
    waiting: 1,
    left: 0,
    median: 7,
    medianInterval: { low: 5, high: null },
    points: [
      {
        day: 5,
        atRisk: 3,
        certified: 1,
        left: 0,
        censored: 0,
        uncertified: 2 / 3,
        leftShare: 0,
        interval: { low: 0.1, high: 0.9 },
      },
      { day: 7, atRisk: 2, certified: 1, left: 0, censored: 1, uncertified: 1 / 3, leftShare: 0, interval: null },
    ],
    tests: { median: null, counts: [] },
  }
  it('climbs from none, and marks who still waits', () => {
    const plot = curvePlot([{ name: 'All together', curve }], 'after the first attempt')
    expect(pointsOf(plot, 'All together').map(([x, y]) => [x, Number(y?.toFixed(3))])).toEqual([
      [0, 0],
      [5, 0.333],
      [7, 0.667],
    ])
    expect(pointsOf(plot, 'still waiting when last seen')).toHaveLength(1)
    expect(series(plot, 'All together')).toMatchObject({ steps: 'held' })
  })
  it('of companies differ in dash and end, and are never more than can be told apart', () => {
    const many = Array.from({ length: 9 }, (_, index) => ({ name: `Company ${index}`, curve }))
    const lines = curvePlot(many, '').series.filter(({ key }) => key?.startsWith('Company'))
    expect(lines).toHaveLength(6)
    expect(new Set(lines.map((one) => one.kind === 'line' && one.end)).size).toBe(6)
    expect(new Set(lines.map((one) => one.kind === 'line' && one.dash?.join())).size).toBe(6)
  })
})

describe('readings', () => {
  const bar = (side: 'low' | 'within' | 'high', from: string | null, to: string | null, count: number) => ({
    side,
    from,
    to,
    count,
  })
  const plot = readingPlot({
    unit: 'in',
    bars: [bar('low', null, '3', 2), bar('low', '3', '4', 0), bar('within', '4', '6', 9), bar('high', '6', null, 1)],
  })
  it('are solid within the band and hollow outside', () => {
    expect(series(plot, 'within the band')).toMatchObject({ solid: true, points: [{ x: 2, y: 9 }] })
    expect(series(plot, 'outside it')).toMatchObject({ solid: false })
    expect(pointsOf(plot, 'outside it')).toEqual([
      [0, 2],
      [3, 1],
    ])
  })
  it('show where the band ends, and name the edges that have a name', () => {
    expect(plot.series.filter(({ kind }) => kind === 'line')).toHaveLength(2)
    expect(plot.across.ticks.map(plot.across.say)).toEqual(['', '3', '4', '6', ''])
  })
  it('have words for open bars', () => {
    expect(formatBar({ from: null, to: '3' }, 'in')).toBe('below 3 in')
    expect(formatBar({ from: '6', to: null }, 'in')).toBe('above 6 in')
    expect(formatBar({ from: '3', to: '4' }, 'in')).toBe('3 to 4 in')
  })
})

describe('a plot as the library takes it', () => {
  const look = {
    ink: Object.fromEntries(INKS.map((ink) => [ink, `#${ink}`])) as Record<Ink, string>,
    font: 'F',
    size: 13,
  }
  const plot = monthPlot({ points: [month('2026-01', 3, 10)], centre: 0.4 })
  it('has the colours of the page and nothing that moves', () => {
    const { data, options } = toConfig(plot, look, false)
    expect(data.datasets.map(({ borderColor }) => borderColor)).toEqual(plot.series.map(({ ink }) => `#${ink}`))
    expect(options?.animation).toBe(false)
  })
  it('puts names of rows above what they name where it is narrow', () => {
    const rows = { ...plot, up: { ...plot.up, rows: true } }
    expect(toConfig(rows, look, true).options?.scales?.y).toMatchObject({ reverse: true, ticks: { mirror: true } })
    expect(toConfig(rows, look, false).options?.scales?.y).toMatchObject({ reverse: true, ticks: { mirror: false } })
  })
})

describe('words on a picture', () => {
  it('name every shape and line that the key shows', () => {
    const points = [month('2026-01', 3, 10), month('2026-02', 9, 10, { signals: ['beyond-limit'] })]
    expect(formatKey(monthPlot({ points, centre: 0.4 }))).toBe(
      'Dashed line: limits. Line: all months together. Disc: usual. Diamond: unusual.',
    )
  })
  it('are broken where they fit', () => {
    expect(wrap('one two three', 7, (line) => line.length)).toEqual(['one two', 'three'])
    expect(wrap('unbreakable', 3, (line) => line.length)).toEqual(['unbreakable'])
  })
})
