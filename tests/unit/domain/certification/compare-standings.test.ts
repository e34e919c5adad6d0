import { expect, it } from 'vitest'
import { compareStandings } from '../../../../server/domain/certification/compare-standings.ts'

const row = (soldierId: string, status: string, more = {}) => ({
  soldierId,
  certification: 'sword',
  rosterNumber: `N${soldierId}`,
  status,
  validThrough: null,
  required: true,
  ...more,
})

it('names whoever stands otherwise, by roster number: status, last day, required, come and gone', () => {
  const before = [row('1', 'lapsed'), row('2', 'lapsed'), row('3', 'lapsed'), row('4', 'lapsed'), row('5', 'lapsed')]
  const after = [
    row('6', 'part way'),
    row('5', 'lapsed', { validThrough: '2026-01-01' }),
    row('3', 'lapsed', { required: false }),
    row('2', 'certified'),
    row('1', 'lapsed'),
  ]
  expect(compareStandings(before, after).map((one) => [one.before?.soldierId, one.after?.soldierId])).toEqual([
    ['2', '2'],
    ['3', '3'],
    ['4', undefined],
    ['5', '5'],
    [undefined, '6'],
  ])
  expect(compareStandings(before, before)).toEqual([])
})
