import type { PlannedEvent } from '../generate/plan.ts'
import type { Footprint } from './in-order.ts'

type Sheet = Extract<PlannedEvent, { kind: 'sheet' }>['body']

const ofSheet = ({ candidateId, sponsorId, graderId, testDayId }: Sheet): Footprint => ({
  changes: [candidateId],
  reads: [sponsorId, graderId, testDayId].filter((name) => name !== null),
})

/**
 * What entering an event changes and reads: people by roster number, test days by date, suspensions by key. The standing
 * of the soldier it is about changes, that of sponsor and grader is read. In: the first sheet under each id.
 */
export function footprintOf(event: PlannedEvent, sheets: ReadonlyMap<string, Sheet>): Footprint {
  switch (event.kind) {
    case 'standard':
    case 'draft':
    case 'certification':
      return { changes: [], reads: [], alone: true }
    case 'test-day':
      return { changes: [event.body.on], reads: [] }
    case 'ceremony':
      return {
        changes: [],
        reads: [...event.body.posts.flatMap(({ soldierId }) => soldierId ?? []), ...event.body.alternates],
      }
    case 'soldier':
      return { changes: [event.body.rosterNumber], reads: [] }
    case 'sponsorship':
      return { changes: [event.soldier], reads: [event.body.sponsorId] }
    case 'sheet':
      return ofSheet(event.body)
    case 'amendment':
      return ofSheet(event.body.sheet)
    case 'decision':
    case 'confirmation':
      return ofSheet(sheets.get(event.id)!)
    default:
      return { changes: [event.soldier], reads: [] }
  }
}
