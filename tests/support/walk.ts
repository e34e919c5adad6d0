import { certificationEvents } from '../../server/domain/certification/events.ts'
import { advance, NO_PROGRESS } from '../../server/domain/certification/progress.ts'
import type { AwardHistory, Break, Certification } from '../../server/domain/certification/types.ts'
import type { Step } from '../../server/domain/certification/walk.ts'

/** All steps of a soldier through a certification, in order, each from the one before it. */
export function walk(certification: Certification, breaks: readonly Break[], history: AwardHistory): Step[] {
  let progress = NO_PROGRESS
  return certificationEvents(certification, history).map((event) => {
    const before = progress
    progress = advance(certification, breaks, before, event)
    return { event, before, after: progress }
  })
}
