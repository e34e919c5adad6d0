import './share-course.css'

export interface CoursePoint {
  day: string
  part: number
  of: number
}

interface ShareCourseProps {
  points: readonly CoursePoint[]
  /** What stands below the first and the last point. */
  ends: readonly [string, string]
}

const WIDTH = 100
const HEIGHT = 40

/**
 * A share over time, from none at the bottom to all at the top; where nobody is counted the line is broken. The figures
 * belong beside it, in a table.
 */
export function ShareCourse({ points, ends }: ShareCourseProps) {
  const x = (at: number) => (points.length < 2 ? WIDTH : (at * WIDTH) / (points.length - 1))
  const y = ({ part, of }: CoursePoint) => HEIGHT * (1 - part / of)
  const path = points
    .map((point, at) => {
      if (point.of === 0) return ''
      const starts = at === 0 || points[at - 1]!.of === 0
      return `${starts ? 'M' : 'L'}${x(at).toFixed(2)} ${y(point).toFixed(2)}`
    })
    .join('')
  const last = points.at(-1)
  return (
    <div className="share-course" aria-hidden="true">
      <span className="share-course-scale">
        <i>all</i>
        <i>half</i>
        <i>none</i>
      </span>
      <span className="share-course-plot">
        <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
          <path className="share-course-rule" d={`M0 0H${WIDTH}M0 ${HEIGHT / 2}H${WIDTH}M0 ${HEIGHT}H${WIDTH}`} />
          <path className="share-course-line" d={path} />
        </svg>
        {last && last.of > 0 && <b className="share-course-now" style={{ top: `${(100 * y(last)) / HEIGHT}%` }} />}
      </span>
      <span className="share-course-ends">
        <i>{ends[0]}</i>
        <i>{ends[1]}</i>
      </span>
    </div>
  )
}
