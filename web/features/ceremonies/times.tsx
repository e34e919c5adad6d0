import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { FactLines } from '../../ui/fact-lines.tsx'
import { formatDay } from '../../words/format-day.ts'
import { counted } from '../../words/format-number.ts'
import { formatTime } from '../../words/format-time.ts'
import type { Words } from './use-words.ts'

/** When and where: reporting, start and end, the time around them that is duty still, rehearsals, notes. */
export function Times({ ceremony, words }: { ceremony: CeremonyDetail; words: Words }) {
  const { today, zone, units } = words
  const { day, reportsAt, startsAt, endsAt, minutesBefore, minutesAfter, place, unitId, notes, rehearsals } = ceremony
  const around = [
    minutesBefore > 0 ? `${counted(minutesBefore, 'minute')} before reporting` : '',
    minutesAfter > 0 ? `${counted(minutesAfter, 'minute')} after the end` : '',
  ].filter(Boolean)
  return (
    <FactLines
      facts={[
        ['Report', `${formatDay(day, today)}, ${formatTime(reportsAt, zone)}`],
        ['From, to', `${formatTime(startsAt, zone)} to ${formatTime(endsAt, zone)}`],
        ['Also on duty', around.join(', ')],
        ['Where', place],
        ['Manned by', fullUnitName(units, unitId)],
        ...rehearsals.map((one, index): [string, string] => [
          rehearsals.length > 1 ? `Rehearsal ${index + 1}` : 'Rehearsal',
          [
            `${formatDay(one.day, today)}, ${formatTime(one.startsAt, zone)} to ${formatTime(one.endsAt, zone)}`,
            one.place,
          ]
            .filter(Boolean)
            .join(', '),
        ]),
        ['Notes', notes],
      ]}
    />
  )
}
