import type { ReadinessPoint } from '#contract/readiness/readiness.ts'
import type { CoursePoint } from '../../../charts/share-course.tsx'

export interface Course {
  certification: string
  /** All units together, a point a day looked at. */
  points: CoursePoint[]
  /** Unit by unit (null: directly in the unit asked about), on the last day and a year before it. */
  units: { unitId: string | null; now: CoursePoint; yearAgo: CoursePoint | undefined }[]
}

const sum = (points: readonly ReadinessPoint[], day: string): CoursePoint => ({
  day,
  part: points.reduce((total, { certified }) => total + certified, 0),
  of: points.reduce((total, { required }) => total + required, 0),
})

/** The course of each certification from the answer's points, certifications by code, units as they come. */
export const toCourses = (items: readonly ReadinessPoint[]): Course[] => {
  const days = [...new Set(items.map(({ asOf }) => asOf))].sort()
  const last = days.at(-1)
  if (last === undefined) return []
  const yearAgo = days.findLast((day) => day <= `${Number(last.slice(0, 4)) - 1}${last.slice(4)}`)
  return [...new Set(items.map(({ certification }) => certification))].sort().map((certification) => {
    const ours = items.filter((item) => item.certification === certification)
    const on = (day: string, unitId?: string | null) =>
      sum(
        ours.filter((item) => item.asOf === day && (unitId === undefined || item.unitId === unitId)),
        day,
      )
    const unitIds = [...new Set(ours.filter(({ asOf }) => asOf === last).map(({ unitId }) => unitId))]
    return {
      certification,
      points: days.map((day) => on(day)),
      units: unitIds.map((unitId) => ({
        unitId,
        now: on(last, unitId),
        yearAgo: yearAgo === undefined ? undefined : on(yearAgo, unitId),
      })),
    }
  })
}
