import { WrittenInstant } from '../../contract/common.ts'
import { toMillis } from '../../domain/calendar/to-millis.ts'

/** What the clock of a device showed; null where it did not say or nobody can read it, for that is no reason to lose a test. */
export function readDeviceTime(said: string | undefined): Date | null {
  const time = WrittenInstant.safeParse(said)
  return time.success ? new Date(toMillis(time.data)) : null
}
