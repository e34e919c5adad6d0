import { useSyncExternalStore } from 'react'
import { dayInZone } from '#calendar/day-in-zone.ts'
import { clockAhead, onClockFound, rightNow } from '../../api/server-clock.ts'
import { formatClockAhead } from '../../domain/sheets/grading/format-clock.ts'
import { Notice } from '../../ui/notice.tsx'
import { formatDayInFull } from '../../words/format-day.ts'
import { formatTime } from '../../words/format-time.ts'
import { unitZone } from '../../words/unit-zone.ts'

/** Says at once that this device's clock is wrong, and what time it is; nothing while it is right. */
export function ClockNotice() {
  const ahead = useSyncExternalStore(onClockFound, clockAhead)
  if (ahead === 0) return null
  const now = rightNow().toISOString()
  const day = dayInZone(now, unitZone())
  return (
    <Notice kind="bad">
      <p>
        This phone’s clock is {formatClockAhead(ahead)}. By the server it is {formatDayInFull(day, day)},{' '}
        {formatTime(now, null)}. Set the clock right. Until then sheets have the server’s time and say so, and the
        training office looks at them.
      </p>
    </Notice>
  )
}
