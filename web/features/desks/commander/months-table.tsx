import { Link } from 'wouter'
import { addressTo, paths } from '../../../paths.ts'
import { Table } from '../../../ui/table.tsx'
import { formatDayWithYear } from '../../../words/format-day.ts'
import { ofAll } from '../../../words/of-all.ts'
import type { Course } from './to-courses.ts'

interface MonthsTableProps {
  courses: readonly Course[]
  unitId: string
  titleOf: (certification: string) => string
}

/** The courses in figures, the latest first; each leads to the people of that day. */
export function MonthsTable({ courses, unitId, titleOf }: MonthsTableProps) {
  const days = courses[0]?.points.map(({ day }) => day).reverse() ?? []
  return (
    <Table<string>
      caption="Certified of those required, at the end of each month"
      rows={days}
      rowKey={(day) => day}
      columns={[
        { head: 'On', tight: true, cell: (day) => formatDayWithYear(day) },
        ...courses.map(({ certification, points }) => ({
          head: titleOf(certification),
          numeric: true,
          cell: (day: string) => {
            const point = points.find((one) => one.day === day)
            if (!point || point.of === 0) return '–'
            const address = addressTo(paths.stand, { asOf: day, certification, unitId })
            return <Link href={address}>{ofAll(point.part, point.of)}</Link>
          },
        })),
      ]}
    />
  )
}
