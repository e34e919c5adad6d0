import { randomUUID } from 'node:crypto'
import { setTimeout } from 'node:timers/promises'
import type { TestSetting } from '../support/factories.ts'
import { times } from '../support/sheet-body.ts'
import type { Answer, ApiClient } from './api-client.ts'
import type { Seen } from './seen.ts'

export interface Stream {
  readonly seen: Seen
  /** Candidates of the moment, one for each writer. */
  readonly settings: () => readonly TestSetting[]
  readonly isOver: () => boolean
}

const DAYS = 280
const DAY_MS = 86_400_000
const BETWEEN_SHEETS_MS = 300
const BETWEEN_READS_MS = 50
const TRY_AGAIN_MS = 100

/**
 * Sends sheets one after the other, as a phone does: each until it is stored, to the other server where one fails. Now and then one
 * that was stored already is sent again.
 * @param writer its number, which is that of the server it prefers
 */
export async function writeSheets(servers: readonly ApiClient[], writer: number, stream: Stream): Promise<void> {
  const { seen, settings, isOver } = stream
  const firstDay = Date.now() - (DAYS + 1) * DAY_MS
  for (let number = 0; !isOver(); number += 1) {
    const { sheet, candidateId } = settings()[writer]!
    const id = randomUUID()
    const day = new Date(firstDay + (number % DAYS) * DAY_MS).toISOString().slice(0, 10)
    const body = sheet(times(day))
    const statuses = [201, 200]
    let server = writer
    for (let wanted = number % 5 === 0 ? 2 : 1; wanted > 0; ) {
      const { status, body: said } = await timed(seen, seen.writes, servers[server]!('PUT', `/api/sheets/${id}`, body))
      if (statuses.includes(status)) {
        const ids = seen.acknowledged.get(candidateId) ?? new Set()
        seen.acknowledged.set(candidateId, ids.add(id))
        seen.moments[server]!.push(performance.now())
        wanted -= 1
      } else if (status !== 503 && status !== 0) {
        seen.faults.push(`A sheet was answered ${status}: ${JSON.stringify(said)}`)
        break
      } else {
        server = (server + 1) % servers.length
        await setTimeout(TRY_AGAIN_MS)
      }
    }
    await setTimeout(BETWEEN_SHEETS_MS)
  }
}

/** Reads as one account, by each server in turn: nothing it saw, and nothing acknowledged before it asked, may be missing. */
export async function readSheets(servers: readonly ApiClient[], stream: Stream): Promise<void> {
  const { seen, settings, isOver } = stream
  const shown = new Map<string, Set<string>>()
  for (let number = 0; !isOver(); number += 1) {
    const all = settings()
    const { candidateId } = all[Math.floor(number / servers.length) % all.length]!
    const known = shown.get(candidateId) ?? new Set<string>()
    const acknowledged = [...(seen.acknowledged.get(candidateId) ?? [])]
    const asked = servers[number % servers.length]!('GET', `/api/sheets?soldierId=${candidateId}&limit=500`)
    const { status, body } = await timed(seen, seen.reads, asked)
    if (status === 200) {
      const ids = new Set((body as { items: { id: string }[] }).items.map(({ id }) => id))
      const gone = [...known].filter((id) => !ids.has(id))
      const missing = acknowledged.filter((id) => !ids.has(id))
      if (gone.length > 0) seen.faults.push(`Went back in time: ${gone.length} sheets seen before are not there`)
      if (missing.length > 0) seen.faults.push(`Older than a word given: ${missing.length} acknowledged sheets missing`)
      shown.set(candidateId, ids)
    } else if (status !== 503 && status !== 0)
      seen.faults.push(`A read was answered ${status}: ${JSON.stringify(body)}`)
    await setTimeout(BETWEEN_READS_MS)
  }
}

async function timed(seen: Seen, counts: Map<number, number>, asked: Promise<Answer>): Promise<Answer> {
  const began = performance.now()
  const answer = await asked
  seen.longestMs = Math.max(seen.longestMs, performance.now() - began)
  counts.set(answer.status, (counts.get(answer.status) ?? 0) + 1)
  return answer
}
