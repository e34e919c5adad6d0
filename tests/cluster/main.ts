import { orderlyStop } from '../../server/process/start/orderly-stop.ts'
import type { Client } from '../support/client.ts'
import { makeGround, makeTestSetting, type TestSetting } from '../support/factories.ts'
import { killProducts } from '../support/start-product.ts'
import { type ApiClient, signIn, succeeds } from './api-client.ts'
import { findPrograms, type Programs, versionsOf } from './find-programs.ts'
import { judgeRecord } from './judge.ts'
import { judgePoolers } from './judge-poolers.ts'
import { HELP, type Options, readOptions } from './options.ts'
import { runRounds } from './rounds.ts'
import { makeDatabase, runCluster } from './run-cluster.ts'
import { acknowledgedCount, nothingSeen } from './seen.ts'
import { makeAccount, startServers } from './servers.ts'
import { readSheets, writeSheets } from './stream.ts'
import { openWorkshop } from './workshop.ts'

const DATABASE = 'guard'
const INTERRUPTED = 130
const ALL_WELL =
  'Each acknowledged sheet is there once, the tallies are those of a recount, the record of changes is whole, and no read went back.'

const say = (line: string) => console.log(line)
let isInterrupted = false
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const)
  process.on(signal, () => {
    isInterrupted = true
  })
const exit = (code: number) => process.exit(isInterrupted ? INTERRUPTED : code)
const ending = orderlyStop({ say, onError: (error) => console.error(error), exit })
for (const event of ['uncaughtException', 'unhandledRejection'] as const) process.on(event, fail)

const options = orRefusal(() => readOptions(process.argv.slice(2)), HELP)
if (options.help) {
  say(HELP)
  process.exit(0)
}
test(options, orRefusal(findPrograms)).catch(fail)

/** Ends the process where the command line is wrong, or something is missing. */
function orRefusal<Read>(read: () => Read, help = ''): Read {
  try {
    return read()
  } catch (error) {
    console.error(`${(error as Error).message}\n\n${help}`.trim())
    process.exit(2)
  }
}

function fail(error: unknown): void {
  if (ending.isStopping()) return
  console.error(error)
  void ending.stop(1)
}

async function test({ rounds, seed, keeps }: Options, programs: Programs): Promise<void> {
  const began = performance.now()
  say(versionsOf(programs))
  const workshop = openWorkshop({ keeps, onLost: fail })
  ending.add(async () => {
    await workshop.clear()
    if (keeps) say(`Logs and data are in ${workshop.folder}`)
  })
  const cluster = await runCluster(programs, workshop)
  await cluster.primary()
  await cluster.whole()
  await makeDatabase(cluster, DATABASE)
  const url = cluster.url('reviewstand', DATABASE)
  ending.add(killProducts)
  const faults = await judgePoolers(programs.pgbouncer, { url, workshop, say })
  const servers = await startServers(cluster, { database: DATABASE, workshop, onLost: fail })
  ending.add(async () => {
    for (const server of servers) server.keepLog()
  })
  const signedIn = async (name: string) => {
    const account = await makeAccount(url, name)
    return Promise.all(servers.map((server) => signIn(server.url, account)))
  }
  const writers = await signedIn('writer')
  const readers = await signedIn('reader')
  const settings = await makeSettings(writers[0]!, rounds, servers.length)
  const seen = nothingSeen(servers.length)
  let round = 0
  let isOver = false
  const stream = { seen, settings: () => settings[round]!, isOver: () => isOver }
  const streams = [...servers.map((_, writer) => writeSheets(writers, writer, stream)), readSheets(readers, stream)]
  for (const each of streams) each.catch(fail)
  say(`The cluster runs after ${seconds(began)} s; ${rounds} rounds, seed ${seed}`)
  await runRounds({
    cluster,
    count: rounds,
    seed,
    seen,
    servers: servers.map(({ name }) => name),
    onRound: (number) => {
      round = number
    },
    say,
  })
  isOver = true
  await Promise.all(streams)
  await killProducts()
  faults.push(...seen.faults, ...(await judgeRecord(url, seen)))
  say(`${acknowledgedCount(seen)} sheets acknowledged in ${seconds(began)} s`)
  say(`Answers to writes: ${byStatus(seen.writes)}; to reads: ${byStatus(seen.reads)} (0: none came)`)
  say(`The longest wait for an answer: ${(seen.longestMs / 1_000).toFixed(1)} s`)
  for (const fault of new Set(faults)) say(`FAULT, ${faults.filter((one) => one === fault).length} times: ${fault}`)
  say(faults.length === 0 ? ALL_WELL : `${faults.length} faults`)
  await ending.stop(faults.length === 0 ? 0 : 1)
}

/** For each round a candidate for each writer, so that no list grows beyond a page. */
async function makeSettings(office: ApiClient, rounds: number, writers: number): Promise<TestSetting[][]> {
  const client = { post: (path: string, body?: unknown) => succeeds(office, 'POST', path, body) } as Client
  const ground = await makeGround(client)
  const settings: TestSetting[][] = []
  while (settings.length < rounds) {
    const some = []
    while (some.length < writers) some.push(await makeTestSetting(client, ground))
    settings.push(some)
  }
  return settings
}

const seconds = (since: number): string => ((performance.now() - since) / 1_000).toFixed(0)

const byStatus = (counts: Map<number, number>): string =>
  [...counts].map(([status, times]) => `${status}: ${times}`).join(', ')
