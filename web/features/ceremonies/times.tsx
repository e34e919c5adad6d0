import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { FactLines } from '../../ui/fact-lines.tsx'
import { sayDay } from '../../words/say-day.ts'
import { counted } from '../../words/say-number.ts'
import { sayTime } from '../../words/say-time.ts'
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
        ['Report', `${sayDay(day, today)}, ${sayTime(reportsAt, zone)}`],
        ['From, to', `${sayTime(startsAt, zone)} to ${sayTime(endsAt, zone)}`],
        ['Also on duty', around.join(', ')],
        ['Where', place],
        ['Manned by', fullUnitName(units, unitId)],
        ...rehearsals.map((one, index): [string, string] => [
          rehearsals.length > 1 ? `Rehearsal ${index + 1}` : 'Rehearsal',
          [`${sayDay(one.day, today)}, ${sayTime(one.startsAt, zone)} to ${sayTime(one.endsAt, zone)}`, one.place]
            .filter(Boolean)
            .join(', '),
        ]),
        ['Notes', notes],
      ]}
    />
  )
}
