import { expect, it } from 'vitest'
import { testsAhead } from '../../../../server/domain/coaching/tests-ahead.ts'

const STANDARDS: Record<string, string[]> = { sword: ['standing', 'marching'], rifle: ['rifle'] }
const status = (certification: string, word: string, required = true, kept: string[] = []) => ({
  certification,
  status: word,
  required,
  toward: kept.map((standard) => ({ standard })),
})
const retest = (standard: string, due: string) => ({ certification: 'sword', standard, earliest: '2026-06-01', due })
const booking = (standard: string, on: string) => ({ standard, on })
const ahead = (...[statuses, retests = [], bookings = []]: Partial<Parameters<typeof testsAhead>>) =>
  testsAhead(statuses ?? [], retests, bookings, (code) => STANDARDS[code] ?? []).map(
    (one) => `${one.standard}${one.retest ? ' retest' : ''}${one.booking ? ` ${one.booking.on}` : ''}`,
  )

it('has what is missing for what is required or begun, and nothing of what is in force', () => {
  expect(ahead([status('sword', 'part way', false, ['standing']), status('rifle', 'certified')])).toEqual(['marching'])
  expect(ahead([status('sword', 'no test yet', false), status('rifle', 'lapsed')])).toEqual(['rifle'])
  expect(ahead([status('sword', 'suspended')])).toEqual([])
})

it('has the retest of who is certified and failed the renewal', () => {
  expect(ahead([status('sword', 'certified')], [retest('standing', '2026-07-01')])).toEqual(['standing retest'])
})

it('is in order of the booking, else of the due day, and has what is booked for a renewal', () => {
  const retests = [retest('standing', '2026-07-01'), retest('marching', '2026-06-20')]
  const bookings = [booking('standing', '2026-06-18'), booking('rifle', '2026-06-19')]
  const statuses = [status('sword', 'retest due'), status('rifle', 'certified')]
  expect(ahead(statuses, retests, bookings)).toEqual([
    'standing retest 2026-06-18',
    'rifle 2026-06-19',
    'marching retest',
  ])
})
