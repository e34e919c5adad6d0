import os from 'node:os'
import { table } from '../report-table.ts'
import { storeRatioOf } from '../results.ts'
import type { MillionResults } from './run-million.ts'

/** Every page for whoever sees everything, in milliseconds. */
const LONGEST_MS = 300

const count = (value: number): string => Math.round(value).toLocaleString('en')
const megabytes = (bytes: number): string => `${count(bytes / 1e6)} MB`

/** The results as text. */
export function reportMillion(results: MillionResults): string {
  const { size, filling, questions, stores, memory, archive, duck, isSameInDuck } = results
  const product = (name: string) => questions.find((one) => one.name === name)!.median
  const [all, battalion] = [product('failing measures'), product('failing measures of a battalion')]
  return [
    `Node ${process.version}, ${os.cpus().length} processors, load ${os.loadavg()[0]!.toFixed(1)}. ${count(size.sheets)} sheets of ${count(size.battalions * 300)} soldiers, filled and checked in ${count(filling)} s.`,
    `Asked by the office over everything; ${LONGEST_MS} ms are aimed at`,
    table([
      ['question', 'first ms', 'median ms', 'processor ms', 'bytes', ''],
      ...questions.map(({ name, first, median, cpu, bytes, refused }) => [
        name,
        count(first),
        count(median),
        cpu === null ? '' : count(cpu),
        count(bytes),
        refused ?? (median > LONGEST_MS ? 'MISSED' : ''),
      ]),
    ]),
    `Storing, 4 at a time: ${stores.product.p50.toFixed(1)} ms, by hand ${stores.byHand.p50.toFixed(1)} ms; ${storeRatioOf(stores).toFixed(2)} times by hand`,
    `Memory of the server, MB: opened ${count(memory.idle?.now ?? 0)}, after ${count(memory.after?.now ?? 0)}, most ${count(memory.after?.most ?? 0)}`,
    `Backup ${count(archive.saving)} s, ${megabytes(archive.size)} of ${megabytes(archive.databaseSize)}; restored in ${count(archive.restoring)} s`,
    `Failing measures beside DuckDB over ${count(duck.rows)} measure results, brought there in ${count(duck.loading)} s${isSameInDuck ? '' : ' (OTHER COUNTS)'}`,
    table([
      ['', 'product ms', 'DuckDB ms', 'times faster'],
      ['everything', all.toFixed(1), duck.everything.toFixed(1), (duck.everything / all).toFixed(2)],
      ['one battalion', battalion.toFixed(1), duck.battalion.toFixed(1), (duck.battalion / battalion).toFixed(2)],
    ]),
  ].join('\n\n')
}
