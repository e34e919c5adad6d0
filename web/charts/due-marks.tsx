import { addDays } from '#calendar/plain-date.ts'
import { formatDay } from '../words/format-day.ts'
import { counted } from '../words/format-number.ts'
import { dueCalendar } from './due-calendar.ts'
import './due-marks.css'

interface DueMarksProps {
  /** The day each one is due, `YYYY-MM-DD`. */
  due: readonly string[]
  today: string
}

const WEEKS_BACK = 5
/** More than so many in a week are drawn as one mark for several. */
const MOST_IN_A_WEEK = 14

/** What is due, week by week: a diamond each over the week it is due in, solid where it is past due. */
export function DueMarks({ due, today }: DueMarksProps) {
  const weeks = dueCalendar(due, (day) => day, today, WEEKS_BACK)
  const most = Math.max(...weeks.map(({ items }) => items.length), 1)
  const each = Math.ceil(most / MOST_IN_A_WEEK)
  return (
    <figure className="due">
      <ol className="due-weeks">
        {weeks.map(({ monday, items }, index) => {
          const past = items.filter((day) => day < today).length
          const current = monday <= today && today < addDays(monday, 7)
          const earlier = index === 0 && items.some((day) => day < monday) ? 'and before' : ''
          return (
            <li key={monday} className={current ? 'due-now' : undefined}>
              <span className="due-stack" aria-hidden="true">
                {Array.from({ length: Math.ceil(items.length / each) }, (_, place) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: marks are alike
                  <Diamond key={place} solid={place * each < past} />
                ))}
              </span>
              <span className="due-count" aria-hidden="true">
                {items.length || ''}
              </span>
              <span className="due-week" aria-hidden="true">
                {current ? 'This week' : formatDay(monday, today).replace(/^\w{3} (?=\d)/, '')}
                {earlier && <small>{earlier}</small>}
              </span>
              <span className="out-of-sight">
                Week of {formatDay(monday, today)}: {items.length} due{past ? `, ${past} past due` : ''}
              </span>
            </li>
          )
        })}
      </ol>
      {each > 1 && <figcaption className="muted small">One mark for {counted(each, 'retest')}.</figcaption>}
    </figure>
  )
}

function Diamond({ solid }: { solid: boolean }) {
  return (
    <svg width="14" height="14" viewBox="0 0 16 16" aria-hidden="true">
      <path
        d="M8 1.4 14.6 8 8 14.6 1.4 8z"
        fill={solid ? 'currentColor' : 'none'}
        stroke="currentColor"
        strokeWidth="1.8"
      />
      {!solid && <circle cx="8" cy="8" r="2" fill="currentColor" />}
    </svg>
  )
}
