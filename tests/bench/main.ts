import { mkdirSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { orderlyStop } from '../../server/process/start/orderly-stop.ts'
import { reportMillion } from './million/report-million.ts'
import { runMillion } from './million/run-million.ts'
import { HELP, type Options, readOptions } from './options.ts'
import type { RecordSize } from './record-size.ts'
import { report } from './report.ts'
import { aimsOf } from './results.ts'
import { runBenchmark } from './run-benchmark.ts'

const say = (line: string) => console.error(line)
const ending = orderlyStop({ say, onError: (error) => console.error(error), exit: (code) => process.exit(code) })

for (const event of ['uncaughtException', 'unhandledRejection'] as const) process.on(event, fail)
start().catch(fail)

async function start(): Promise<void> {
  const options = optionsOrRefusal()
  if (options.help) {
    console.log(HELP)
    return
  }
  if (options.json !== null) mkdirSync(path.dirname(options.json), { recursive: true })
  if (options.million !== null) return millionOf(options.million, options.json)
  const results = await runBenchmark(options.plan, { say, undo: ending.add, fail })
  console.log(report(results))
  if (options.json !== null) {
    writeFileSync(options.json, `${JSON.stringify({ ...results, aims: aimsOf(results) }, null, 2)}\n`)
  }
  await ending.stop(results.differingTables.length === 0 ? 0 : 1)
}

async function millionOf(size: RecordSize, json: string | null): Promise<void> {
  const results = await runMillion(size, { say, undo: ending.add, fail })
  console.log(reportMillion(results))
  if (json !== null) writeFileSync(json, `${JSON.stringify(results, null, 2)}\n`)
  await ending.stop(results.isSameInDuck ? 0 : 1)
}

function optionsOrRefusal(): Options {
  try {
    return readOptions(process.argv.slice(2))
  } catch (error) {
    console.error(`${(error as Error).message}\n\n${HELP}`)
    process.exit(2)
  }
}

function fail(error: unknown): void {
  if (ending.isStopping()) return
  console.error(error)
  void ending.stop(1)
}
