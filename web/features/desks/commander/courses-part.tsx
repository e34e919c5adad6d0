import { Link } from 'wouter'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { FilledBy } from '../../../parts/first-steps/filled-by.tsx'
import { paths } from '../../../paths.ts'
import { Empty } from '../../../ui/empty.tsx'
import { Section } from '../../../ui/section.tsx'
import { CourseOf } from './course-of.tsx'
import { MonthsTable } from './months-table.tsx'
import type { Course } from './to-courses.ts'

interface CoursesPartProps {
  courses: readonly Course[] | undefined
  units: readonly Unit[]
  unitId: string
  titleOf: (code: string) => string
}

/** How many of those required were certified, month by month. */
export function CoursesPart({ courses, units, unitId, titleOf }: CoursesPartProps) {
  return (
    <Section
      title="Certified of those required"
      note="at the end of each month, with the people of that day"
      more={<Link href={paths.suspensions}>Suspensions</Link>}
    >
      {courses?.length === 0 && (
        <Empty>
          Nobody here is required to hold a certification. Pick another unit.
          <FilledBy steps={['certifications', 'roster']} />
        </Empty>
      )}
      {courses && courses.length > 0 && (
        <>
          <div className="courses">
            {courses.map((course) => (
              <CourseOf
                key={course.certification}
                course={course}
                title={titleOf(course.certification)}
                units={units}
                top={unitId}
              />
            ))}
          </div>
          <details className="courses-table">
            <summary>Month by month in figures</summary>
            <MonthsTable courses={courses} unitId={unitId} titleOf={titleOf} />
          </details>
        </>
      )}
    </Section>
  )
}
