import { Link } from 'wouter'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { ShareCourse } from '../../../charts/share-course.tsx'
import { ShareLine } from '../../../charts/share-line.tsx'
import { unitsInOrder } from '../../../domain/soldiers/unit-tree.ts'
import { addressTo, paths } from '../../../paths.ts'
import { formatMonthShort } from '../../../words/format-month.ts'
import { ofAll } from '../../../words/of-all.ts'
import { formatChange } from './format-commander.ts'
import type { Course } from './to-courses.ts'

interface CourseOfProps {
  course: Course
  title: string
  units: readonly Unit[]
  /** The unit asked about; its own people are the line without a unit. */
  top: string
}

const standAddress = (unitId: string | null, certification: string) => addressTo(paths.stand, { unitId, certification })

/** One certification: its course over eighteen months, and how its units stand now. Every figure leads to the names. */
export function CourseOf({ course, title, units, top }: CourseOfProps) {
  const { certification, points } = course
  const now = points.at(-1)!
  const order = unitsInOrder(units).map(({ unit }) => unit.id)
  const lines = [...course.units].sort((a, b) => order.indexOf(a.unitId ?? '') - order.indexOf(b.unitId ?? ''))
  const nameOf = (unitId: string | null) => units.find(({ id }) => id === (unitId ?? top))?.name ?? 'All'
  return (
    <article className="course">
      <h3>
        <Link href={standAddress(top || null, certification)}>{title}</Link>
        <b>{ofAll(now.part, now.of)}</b>
      </h3>
      <ShareCourse points={points} ends={[formatMonthShort(points[0]!.day.slice(0, 7)), 'today']} />
      <ul>
        {lines.map(({ unitId, now: current, yearAgo }) => (
          <li key={unitId}>
            <Link href={standAddress(unitId ?? (top || null), certification)}>
              <bdi>{nameOf(unitId)}</bdi>
              {unitId === null && ', directly'}
            </Link>
            <ShareLine part={current.part} of={current.of} />
            <span className="course-count">{ofAll(current.part, current.of)}</span>
            <span className="course-change">{formatChange(current, yearAgo)}</span>
          </li>
        ))}
      </ul>
    </article>
  )
}
