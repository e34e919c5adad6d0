import os from 'node:os'
import type { Summary } from './measure/summary.ts'
import { table } from './report-table.ts'
import { aimsOf, growthOf, type Results, storeRatioOf } from './results.ts'

const count = (value: number): string => Math.round(value).toLocaleString('en')
const sheets = (value: number): string => `${count(value)} sheets`
const millis = (value: number): string => value.toFixed(value < 10 ? 2 : 1)
const ratio = (value: number): string => value.toFixed(2)
const cells = ({ p50, p99, perSecond, cpu }: Summary): string[] => [
  millis(p50),
  millis(p99),
  count(perSecond),
  cpu === null ? '?' : millis(cpu),
]

/** The results as text: the tables, what they come to, and which aims are met. */
export function report(results: Results): string {
  const { small, large, reads, stores, histories, memory, readConcurrency, differingTables, phone } = results
  const timed = ['p50 ms', 'p99 ms', 'a second', 'CPU ms']
  const readRows = reads.flatMap((one) => [
    [one.name, sheets(small), ...cells(one.small.product), ...cells(one.small.byHand), '', ...shares(one.small), ''],
    [
      '',
      sheets(large),
      ...cells(one.large.product),
      ...cells(one.large.byHand),
      ratio(growthOf(one)),
      ...shares(one.large),
      quotient(one.large.product.cpu, one.small.product.cpu),
    ],
    ['', 'select 1', '', '', '', '', ...cells(one.selectOne), '', '', '', ''],
  ])
  const storeRows = stores.map((one) => [
    sheets(one.sheets),
    String(one.concurrency),
    ...cells(one.product),
    ...cells(one.byHand),
    ratio(storeRatioOf(one)),
    quotient(one.product.cpu, one.byHand.cpu),
  ])
  const aims = aimsOf(results).map(({ text, found, isMet }) => [isMet ? 'met' : 'MISSED', ratio(found), text])
  return [
    `Node ${process.version}, ${os.cpus().length} processors, load ${os.loadavg()[0]!.toFixed(1)}. Compare within a table, not between runs.`,
    'CPU ms is the processor time of server and PostgreSQL a call; it says more than the rest where other work goes on beside.',
    `Reads over HTTP, ${readConcurrency} connections: the product, then a bare Fastify route with hand-written SQL (or select 1) through pg.\n` +
      'Of failing measures the hand-written route answers the counts alone, without intervals, tests and order.',
    table([
      [
        'question',
        'record',
        ...timed,
        'by hand: p50 ms',
        ...timed.slice(1),
        'growth',
        'share of by hand',
        'CPU share',
        'CPU growth',
      ],
      ...readRows,
    ]),
    'Sheets stored: the product over HTTP, then the same rows by one hand-written pg transaction a sheet',
    table([
      ['record', 'at a time', ...timed, 'by hand: p50 ms', ...timed.slice(1), 'times by hand', 'CPU times'],
      ...storeRows,
    ]),
    'Sheets stored one after the other, by how many sheets the soldier has before',
    table([
      ['sheets before', ...timed],
      [String(histories.few), ...cells(histories.withFew)],
      [String(histories.many), ...cells(histories.withMany)],
    ]),
    'Memory of the server, MB: when it has opened, and after all of the above',
    table([
      ['record', 'opened', 'after', 'most'],
      ...memory.map(({ sheets: of, idle, after }) => [
        sheets(of),
        ...[idle?.now, after?.now, after?.most].map((value) => (value === undefined ? '?' : count(value))),
      ]),
    ]),
    `Grading on a phone's screen in Chromium, processor ${phone.throttle} times slower, no network`,
    table([
      ['', 'times', 'p50 ms', 'p95 ms'],
      ['tap to next call painted, mark on the disk', ...phoneCells(phone.tap)],
      ['grade sheet opened', ...phoneCells(phone.opening)],
    ]),
    `A test day of ${phone.day.sheets} sheets of ${phone.day.marks} marks on it, a sheet`,
    table([
      ['page busy ms', 'scripts ms', 'writes', 'wake locks left after a sheet'],
      [millis(phone.day.busy), millis(phone.day.scripts), millis(phone.day.writes), String(phone.day.locksLeft)],
    ]),
    differingTables.length === 0
      ? 'Both left the same rows in every table.'
      : `They left OTHER ROWS in ${differingTables.join(', ')}: mend the hand-written transaction before you believe its ratio.`,
    'Aims',
    table(aims),
  ].join('\n\n')
}

const phoneCells = ({ count, p50, p95 }: Results['phone']['tap']): string[] => [String(count), millis(p50), millis(p95)]

/** The product's rate as a share of the hand-written one, and the same by processor time. */
const shares = ({ product, byHand }: Results['reads'][number]['small']): string[] => [
  ratio(product.perSecond / byHand.perSecond),
  quotient(byHand.cpu, product.cpu),
]

const quotient = (a: number | null, b: number | null): string => (a === null || b === null ? '?' : ratio(a / b))
